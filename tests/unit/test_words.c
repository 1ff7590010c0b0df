/* Texts taken apart, and lists of phrases found in them. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "read/words.h"

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
        words_read(a, NULL, slice_of(rows[i].text), &w);
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

/* the first of the phrases' order, and the first of the text's, as looking at each word would find
 */
static void
finds_phrases_of_a_list(void **state)
{
    (void)state;
    struct arena *a = arena_open(16384);
    size_t found_in_all = 0;
    for (size_t t = 0; t < sizeof texts / sizeof *texts; t++) {
        struct words w;
        words_read(a, NULL, slice_of(texts[t]), &w);
        for (size_t l = 0; l < LISTS; l++)
            for (size_t from = 0; from <= w.count; from++) {
                const char *next = NULL, *any = NULL;
                size_t next_at = 0, any_at = 0, at = 99;
                for (size_t i = from; i < w.count; i++)
                    for (size_t k = 0; lists[l][k] != NULL && next == NULL; k++)
                        if (words_phrase(&w, i, lists[l][k]) > 0) {
                            next = lists[l][k];
                            next_at = i;
                        }
                assert_ptr_equal(words_next(&w, lists[l], from, &at), next);
                assert_true(next == NULL || at == next_at);
                for (size_t k = 0; lists[l][k] != NULL && any == NULL; k++)
                    for (size_t i = from; i < w.count && any == NULL; i++)
                        if (words_phrase(&w, i, lists[l][k]) > 0) {
                            any = lists[l][k];
                            any_at = i;
                        }
                assert_ptr_equal(words_any(&w, lists[l], from, w.count + 1, &at), any);
                assert_true(any == NULL || at == any_at);
                assert_true(any == NULL || words_any(&w, lists[l], from, any_at, NULL) != any);
                found_in_all += any != NULL;
            }
    }
    assert_true(found_in_all > 50);
    arena_close(a);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(takes_texts_apart),
        cmocka_unit_test(finds_phrases_of_a_list),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
