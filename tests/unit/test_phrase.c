/* Phrases of the lists of words, in a line's bytes and in a text that is cut into words. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "english.h"
#include "read/phrase.h"
#include "read/words_listed.h"

static void
the_longest_phrase_of_a_line_counts(void **state)
{
    (void)state;
    static const struct {
        const char *line;
        size_t bytes;
    } rows[] = {{"a little bit of salt", 15}, {"A Little salt", 8}, {"some salt", 4},
                {"somewhat salty", 0},        {"salt", 0},          {"enough", 6}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        assert_int_equal(phrase_at(english(), WORDS_LITTLE, slice_of(rows[i].line), 0, NULL),
                         rows[i].bytes);
    assert_int_equal(phrase_at(NULL, WORDS_LITTLE, SLICE("some salt"), 0, NULL), 0);
    assert_true(phrase_is(english(), WORDS_TO_TASTE, SLICE(" To taste ")));
    assert_false(phrase_is(english(), WORDS_TO_TASTE, SLICE("to taste it")));
    assert_false(phrase_is(english(), WORDS_TO_TASTE, SLICE(" ")));
}

static void
numbers_stand_behind_phrases(void **state)
{
    (void)state;
    struct arena *a = arena_open(4096);
    const struct words *w = words_in(a, SLICE("Two thirds of a few, half an hour"));
    struct span range = {0, 0, 0};
    size_t which = 0;
    assert_int_equal(words_range(w, WORDS_COUNTS, 3, &range), 2);
    assert_float_equal(range.low, 2, 1e-12);
    assert_float_equal(range.mid, 3.5, 1e-12);
    assert_float_equal(range.high, 5, 1e-12);
    assert_int_equal(words_range(w, WORDS_COUNTS, 6, &range), 2);
    assert_float_equal(range.high, 0.5, 1e-12);
    assert_int_equal(words_range(w, WORDS_COUNTS, 0, &range), 0);
    assert_int_equal(words_longest_before(w, WORDS_FRACTIONS, 3, &which), 3);
    assert_float_equal(word_lists_get(english(), WORDS_FRACTIONS)->values[which].range.mid, 2.0 / 3,
                       1e-12);
    assert_int_equal(words_longest_before(w, WORDS_FRACTIONS, 2, &which), 0);
    arena_close(a);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_longest_phrase_of_a_line_counts),
        cmocka_unit_test(numbers_stand_behind_phrases),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
