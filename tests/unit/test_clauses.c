/* What happens in a step, read by the words of the table: what is done, to what, and whether. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "judge/clauses.h"
#include "whole_post.h"

static const struct tried {
    const char *lines, *steps, *notes;
    const char *told; /* of each clause its actions, places and states, "not" and the like, and the
                         number of each ingredient that it acts on */
} tried[] = {
    {"2 carrots; 1 litre water", "Simmer the carrots in the water.|Leave it out all night to cool.",
     NULL, "simmer liquid 0 1; leaving-out cooling for-hours 0 1"},
    {"2 carrots; 1 litre water", "Bring the water to the boil. Add the carrots, then drain.", NULL,
     "boil liquid 1; adding 0; adding 0 1"},
    {"4 chicken thighs", "There is no need to rinse the chicken. Roast it.", NULL,
     "washing not 0; bake 0"},
    {"4 chicken thighs", "Do not rinse or wash the chicken.", NULL, "washing not 0; washing not 0"},
    {"4 chicken thighs", "Roast the chicken without washing it.", NULL, "bake 0; washing not 0"},
    {"200 g rice", "The cooked rice is left on the counter overnight.", NULL, "leaving room 0"},
    {"200 g rice; 2 carrots", "Fry the carrots. Let the rice cool in the pan.", NULL,
     "fry 1; leaving cooling in-pan 0"},
    {"200 g rice; 2 carrots", "Heat the oven. Fry the carrots and the rice in a frying pan.", NULL,
     "cook oven-place; fry 0 1"},
    {"200 g dried kidney beans; 1 litre water", "Soak in boiling water. Simmer with the water.",
     NULL, "soaking hot-water 0 1; simmer liquid 0 1"},
    {"500 g rhubarb", "Chop the rhubarb, leaves and all.", NULL, "cutting 0"},
    {"500 g rhubarb", "If you like, stew the rhubarb.", NULL, "simmer if 0"},
    {"500 g rhubarb", "Stew it.", "In my old oven it took an hour.", "simmer 0; told oven-place 0"},
    {"800 g potatoes, cut into chips", "Fry the chips.", NULL, "fry 0"},
    {"200 g rice", "Boil it.", "Store in the fridge; never keep it at room temperature.",
     "boil 0; keeping fridge 0; keeping not room 0"},
};

static struct slice
told_of(struct arena *a, const struct clauses *all, size_t ingredients)
{
    struct text t = text_new(a);
    for (size_t i = 0; i < all->count; i++) {
        const struct clause *c = &all->items[i];
        text_add_string(&t, i > 0 ? ";" : "");
        for (int actions = 1; actions >= 0; actions--)
            for (size_t k = 0; k < c->sign_count; k++) {
                const struct sign *s = &c->first_sign[k];
                const bool told =
                    actions ? s->done
                            : s->row->kind == COOKING_PLACE || s->row->kind == COOKING_STATE;
                if (told && s->from >= c->from && s->from < c->end)
                    text_addf(&t, " %s", s->row->id);
                if (actions && k + 1 == c->sign_count)
                    text_addf(&t, "%s%s%s", c->negated ? " not" : "", c->conditional ? " if" : "",
                              c->remark ? " told" : "");
            }
        for (size_t k = 0; k < ingredients; k++)
            if (ingredient_set_has(&c->acted, k))
                text_addf(&t, " %zu", k);
    }
    return slice_trim(text_slice(&t));
}

static void
reads_what_happens(void **state)
{
    (void)state;
    size_t wrong = 0;
    for (size_t i = 0; i < sizeof tried / sizeof *tried; i++) {
        struct arena *a = arena_open(16384);
        struct whole_post w;
        read_whole_post(a, compose(a, "A dish", "", tried[i].lines, tried[i].steps, tried[i].notes),
                        &w);
        judging(a, &w);
        struct slice told = told_of(a, &w.clauses, w.dish.count);
        if (!slice_is(told, tried[i].told)) {
            print_error("%s: “%.*s”, not “%s”\n", tried[i].steps, SLICE_ARGS(told), tried[i].told);
            wrong++;
        }
        arena_close(a);
    }
    assert_int_equal(wrong, 0);
}

/* every meaning that a row names is there, and every phrase is found in a text of its own */
static void
finds_each_phrase_of_the_table(void **state)
{
    (void)state;
    const struct cooking *c = &tables.cooking;
    assert_true(c->rows.count > 50);
    for (size_t r = 0; r < c->rows.count; r++)
        for (const char **p = c->rows.items[r].phrases;
             c->rows.items[r].kind != COOKING_PROMISE && *p != NULL; p++) {
            struct arena *a = arena_open(4096);
            struct words w;
            struct signs signs;
            struct text t = text_new(a);
            for (const char *at = *p; *at != '\0'; at++)
                text_addf(&t, "%.*s",
                          *at == '~'   ? 4
                          : *at == '*' ? 0
                                       : 1,
                          *at == '~' ? "that" : at);
            words_read(a, tables.words, text_slice(&t), &w);
            cooking_read(a, c, &w, &signs);
            bool found = false;
            for (size_t i = 0; i < signs.count && !found; i++)
                found = signs.items[i].from == 0 && signs.items[i].end == w.count;
            if (!found)
                fail_msg("%s: “%s” is not found", c->rows.items[r].id, *p);
            arena_close(a);
        }
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(reads_what_happens),
        cmocka_unit_test(finds_each_phrase_of_the_table),
    };
    return cmocka_run_group_tests(tests, load_tables, drop_tables);
}
