/* Texts taken apart, and lists of phrases found in them, with a phrase book and without. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "read/phrasebook.h"

enum { LISTS = 8 };

static const char *const lists[LISTS][6] = {
    {"until tender", "until", NULL},
    {"prep*", "1 1/2 hours", "pre heat*", NULL},
    {"gluten free", "free", NULL},
    {"h*", "°", NULL},
    {"*", "- free", "don't", NULL},
    {"un*", "in the oven", "the", "in*", NULL},
    {"oven ", "", " oven", "10 minutes", NULL},
    {NULL},
};

static const char *const texts[] = {
    "Heat the oven to 180 °C. Bake until tender, 10 minutes.",
    "Gluten-free, glutenFREE and free from gluten: don't * it!",
    "PREPARE 1 1/2 hours ahead; pre-heat, pré-heated – in the oven.",
    "In THE oven until.Until the 10 minutes",
    "½ hour, 10-minutes or so’s",
    "",
};

/* each word as kind, folded, sentence; + joined, ^ capital */
static void
takes_texts_apart(void **state)
{
    (void)state;
    static const struct {
        const char *text, *words;
    } rows[] = {
        {"Add 1½ tsp salt.\nStir!",
         "^a:add 0 n:1½=1.5 0 a:tsp 0 a:salt 0 +m:. 0 ^a:stir 1 +m:! 1 "},
        {"Crème-brûlée’s 1,5 kg", "^a:creme 0 +m:- 0 +a:brulee's 0 n:1,5=1.5 0 a:kg 0 "},
        {"O'Brien’ ‘x’ 180ºC…", "^a:o'brien 0 +m:’ 0 m:‘ 0 +a:x 0 +m:’ 0 n:180=180 0 +m:° 0 "
                                "+^a:c 0 +m:. 0 "},
        {"\xc2\xa0"
         "a  b\t1 1/2",
         "a:a 0 a:b 0 n:1 1/2=1.5 0 "},
        {"end. of. Him? yes", "a:end 0 +m:. 0 a:of 0 +m:. 0 ^a:him 1 +m:? 1 a:yes 2 "},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct arena *a = arena_open(4096);
        struct words w;
        struct text t = text_new(a);
        words_read(a, slice_of(rows[i].text), &w);
        for (size_t k = 0; k < w.count; k++) {
            const struct word *one = &w.items[k];
            text_addf(&t, "%s%s%c:%.*s", one->joined ? "+" : "", one->upper ? "^" : "",
                      "anm"[one->kind], SLICE_ARGS(one->folded));
            if (one->kind == WORD_NUMBER)
                text_addf(&t, "=%g", one->value);
            text_addf(&t, " %u ", one->sentence);
        }
        assert_string_equal(slice_string(a, text_slice(&t)), rows[i].words);
        arena_close(a);
    }
}

static void
answers_alike_with_a_book(void **state)
{
    (void)state;
    struct arena *a = arena_open(16384);
    struct phrasebook *b = phrasebook_open();
    size_t found_in_all = 0, learnt = 0;
    for (int again = 0; again < 2; again++)
        for (size_t t = 0; t < sizeof texts / sizeof *texts; t++) {
            struct words bare, marked;
            assert_int_equal(phrasebook_lists(b), learnt);
            words_read(a, slice_of(texts[t]), &bare);
            marked = bare;
            phrasebook_mark(b, a, &marked);
            for (size_t l = 0; l < LISTS; l++)
                for (size_t from = 0; from <= bare.count; from++) {
                    size_t next = 99, same = 99;
                    const char *first = words_next(&bare, lists[l], from, &next);
                    assert_ptr_equal(words_next(&marked, lists[l], from, &same), first);
                    assert_true(first == NULL || next == same);
                    assert_true(first == NULL || words_at(&bare, next, first) > 0);
                    for (size_t to = from; to <= bare.count + 1; to++) {
                        size_t at = 99, other = 99;
                        const char *one = words_any(&bare, lists[l], from, to, &at);
                        assert_ptr_equal(words_any(&marked, lists[l], from, to, &other), one);
                        assert_int_equal(at, other);
                        found_in_all += one != NULL;
                        assert_true(one == NULL || (first != NULL && next < to));
                    }
                }
            assert_true(learnt == 0 || phrasebook_lists(b) == learnt);
            learnt = phrasebook_lists(b);
            assert_true(learnt > 0);
        }
    assert_true(found_in_all > 100);
    phrasebook_close(b);
    arena_close(a);
}

/* a sum says no only where none of its texts has a phrase of the list */
static void
sums_up_what_may_occur(void **state)
{
    (void)state;
    struct arena *a = arena_open(16384);
    struct phrasebook *b = phrasebook_open();
    for (int again = 0; again < 2; again++) {
        struct phrase_sum all = {0}, rest = {0}, none = {0};
        struct words w[3];
        for (size_t t = 0; t < 3; t++) {
            words_read(a, slice_of(texts[t]), &w[t]);
            phrasebook_mark(b, a, &w[t]);
            phrasebook_sum(t == 0 ? &all : &rest, &w[t]);
            assert_int_equal(w[t].mixed, t == 2);
        }
        phrasebook_join(&all, &rest);
        for (size_t l = 0; l < LISTS; l++) {
            bool any = words_have(&w[0], lists[l]) || words_have(&w[1], lists[l]) ||
                       words_have(&w[2], lists[l]);
            /* "1 1/2 hours" keeps the second list out of the book */
            assert_int_equal(phrasebook_may(&all, lists[l]), any || !again || l == 1);
            assert_false(phrasebook_may(&none, lists[l]));
        }
        assert_true(w[0].most > 179 && w[0].most < 181);
    }
    phrasebook_close(b);
    arena_close(a);
}

/* more lists than there is room for are still looked up */
static void
goes_on_when_it_is_full(void **state)
{
    (void)state;
    enum { MANY = 676 };
    struct arena *a = arena_open(16384);
    struct phrasebook *b = phrasebook_open();
    const char *const **many = arena_take_array(a, MANY, sizeof *many);
    struct words w;
    for (int again = 0; again < 2; again++) {
        words_read(a, SLICE("fold in word ah and word ya"), &w);
        phrasebook_mark(b, a, &w);
        for (size_t i = 0; i < MANY; i++) {
            const char **list = again ? NULL : arena_take_array(a, 2, sizeof *list);
            if (!again) {
                list[0] = text_format(a, "word %c%c", (int)('a' + i / 26), (int)('a' + i % 26));
                many[i] = list;
            }
            assert_int_equal(words_have(&w, many[i]), i == 7 || i == 24 * 26);
        }
    }
    phrasebook_close(b);
    arena_close(a);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(takes_texts_apart),
        cmocka_unit_test(answers_alike_with_a_book),
        cmocka_unit_test(sums_up_what_may_occur),
        cmocka_unit_test(goes_on_when_it_is_full),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
