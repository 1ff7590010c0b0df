/* Stems of words, and lists in rows by the first letter. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "own_tables.h"
#include "read/stem.h"

static void
stems_are_singular(void **state)
{
    static const struct {
        const char *word, *stem;
    } tried[] = {
        {"carrots", "carrot"},  {"tomatoes", "tomato"},
        {"berries", "berry"},   {"leaves", "leaf"},
        {"halves", "half"},     {"loaves", "loaf"},
        {"radishes", "radish"}, {"boxes", "box"},
        {"cheeses", "cheese"},  {"couscous", "couscous"},
        {"glass", "glass"},     {"swiss", "swiss"},
        {"gas", "gas"},         {"baker's", "baker"},
        {"rice", "rice"},       {"asparagus", "asparagus"},
    };
    struct arena *a = arena_open(4096);
    assert_non_null(a);
    assert_int_equal(setjmp(*arena_guard(a)), 0);
    for (size_t i = 0; i < sizeof tried / sizeof *tried; i++) {
        const struct stem found = stem_of(a, slice_of(tried[i].word));
        const struct stem same = stem_of(a, slice_of(tried[i].stem));
        assert_true(slice_is(found.text, tried[i].stem));
        assert_true(stem_equal(&found, &same));
    }
    arena_close(a);
    (void)state;
}

static void
stems_of_other_words_differ(void **state)
{
    static const char *const words[] = {"oat",         "oats milk",   "oa", "cornflour",
                                        "cornflower",  "sunflower",   "a",  "",
                                        "buttermilks", "buttermilk x"};
    struct arena *a = arena_open(4096);
    assert_non_null(a);
    assert_int_equal(setjmp(*arena_guard(a)), 0);
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        for (size_t k = 0; k < i; k++) {
            const struct stem one = stem_of(a, slice_of(words[i]));
            const struct stem other = stem_of(a, slice_of(words[k]));
            assert_false(stem_equal(&one, &other));
            assert_int_not_equal(one.code, other.code);
        }
    arena_close(a);
    (void)state;
}

static void
some_stems_only_describe(void **state)
{
    static const char *const describing[] = {"a", "fresh", "yellow", "zest", "shredded"};
    static const char *const naming[] = {"", "carrot", "fres", "freshest", "x", "\xc3\xa9", "2"};
    struct arena *a = arena_open(4096);
    assert_non_null(a);
    const struct word_lists *lists = repository_tables(a)->words;
    for (size_t i = 0; i < sizeof describing / sizeof *describing; i++) {
        const struct stem s = stem_of(a, slice_of(describing[i]));
        assert_true(stem_describes(lists, &s));
    }
    for (size_t i = 0; i < sizeof naming / sizeof *naming; i++) {
        const struct stem s = stem_of(a, slice_of(naming[i]));
        assert_false(stem_describes(lists, &s));
    }
    arena_close(a);
    (void)state;
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(stems_are_singular),
        cmocka_unit_test(stems_of_other_words_differ),
        cmocka_unit_test(some_stems_only_describe),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
