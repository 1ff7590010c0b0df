/* Method and list held against each other. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "judge/method.h"
#include "judge/unlisted.h"
#include "whole_post.h"

static void
judge(struct arena *a, struct whole_post *w, struct mentions *m)
{
    const struct judging *j = judging(a, w);
    struct method_foods foods;
    method_judge(j, m);
    unlisted_judge(j, &foods);
}

static const struct tried {
    const char *lines, *steps, *keys;
    int rule; /* -1: nothing is wrong */
    const char *what, *more;
} tried[] = {
    /* used */
    {"200 g rice; 2 carrots; 1 leek", "Boil the rice.|Fry the carrots.", "", RULE_INGREDIENT_UNUSED,
     "leek", ""},
    {"200 g rice; 2 carrots; 1 leek", "Fry the vegetables and add the rice.", "", -1, NULL, NULL},
    {"200 g flour; 1 tsp baking powder; 100 ml milk", "Mix the dry ingredients, then the milk.", "",
     -1, NULL, NULL},
    {"200 g flour; 2 eggs; 100 ml milk", "Whisk everything.", "", -1, NULL, NULL},
    {"4 tomatoes; 1 tsp salt; a pinch of pepper", "Chop the tomatoes and season.", "", -1, NULL,
     NULL},
    {"2 courgettes; 1 tbsp olive oil", "Fry the zucchini in the oil.", "", -1, NULL, NULL},
    {"4 chicken thighs; 2 bay leaves", "Fry the chicken with the bay.", "", -1, NULL, NULL},
    {"20 g fresh parsley; 20 g fresh mint; 4 potatoes",
     "Boil the potatoes and scatter with the herbs.", "", -1, NULL, NULL},
    {"4 potatoes; lime wedges, to serve", "Boil the potatoes and serve.", "", -1, NULL, NULL},
    {"2 tbsp maple syrup or brown sugar; 4 potatoes", "Glaze the potatoes with the sugar.", "", -1,
     NULL, NULL},
    {"1 tsp bicarbonate of soda; 200 g flour", "Stir the bicarb into the flour.", "", -1, NULL,
     NULL},
    /* listed */
    {"200 g rice; 1 leek", "Boil the rice, fry the leek and add the paprika.", "",
     RULE_FOOD_UNLISTED, "paprika", ""},
    {"200 g rice; 1 leek", "Add the paprika and the leek, then boil the rice.", "",
     RULE_FOOD_UNLISTED, "paprika", ""},
    {"200 g rice; 1 leek", "Boil the rice and add the leek, paprika and salt.", "",
     RULE_FOOD_UNLISTED, "paprika", ""},
    {"200 g rice; 1 leek", "Boil the rice and fry the leek with the ginger.", "",
     RULE_FOOD_UNLISTED, "ginger", ""},
    {"200 g rice; 1 leek", "Add the rice and leek, stir well and cover with the lid.", "", -1, NULL,
     NULL},
    {"200 g rice; 1 leek", "Boil the rice, fry the leek and finish with a sprinkle of salt.", "",
     -1, NULL, NULL},
    {"200 g rice; 1 leek", "Boil the rice, fry the leek in a little oil, add water and salt.", "",
     -1, NULL, NULL},
    {"200 g rice; 1 leek", "Boil the rice, fry the leek and add chilli if you like.", "", -1, NULL,
     NULL},
    {"200 g rice; 1 leek", "Boil the rice, fry the leek and add the leek mixture.", "", -1, NULL,
     NULL},
    /* order */
    {"1 leek; 2 carrots; 200 g rice; 4 tomatoes",
     "Chop the tomatoes.|Simmer the rice.|Fry the carrots.|Fry the leek.", "",
     RULE_INGREDIENT_ORDER, "tomatoes", "“leek”"},
    {"1 leek; 2 carrots; 200 g rice", "Fry the carrots and the leek.|Add the rice.", "", -1, NULL,
     NULL},
    /* amounts */
    {"4 tbsp olive oil; 1 leek", "Heat half the oil and fry the leek.|Add the remaining oil.", "",
     -1, NULL, NULL},
    {"4 tbsp olive oil; 1 leek", "Heat half the olive oil and fry the leek.", "", RULE_STEP_AMOUNTS,
     "50 % of “olive oil”", "all of it"},
    {"4 tbsp olive oil; 1 leek",
     "Heat 1 tbsp of the oil and fry the leek.|Add the other 3 tbsp olive oil.", "", -1, NULL,
     NULL},
    {"2 tbsp olive oil; 1 leek", "Heat 2 tbsp of the oil and fry the leek.|Add 2 tbsp oil.", "",
     RULE_STEP_AMOUNTS, "4 tbsp of “olive oil”", "2 tbsp"},
    {"200 g sugar; 1 leek", "Stir 150 g of the sugar into the leek.", "", RULE_STEP_AMOUNTS,
     "150 g of “sugar”", "200 g"},
    {"200 g sugar; 1 leek", "Stir 150 g of the sugar into the leek.|Add the sugar that is left.",
     "", -1, NULL, NULL},
    {"200 g sugar, plus 1 tbsp to dust; 1 leek", "Stir 200 g sugar into the leek.", "", -1, NULL,
     NULL},
    {"1 cup sugar; 1 leek", "Stir 8 tbsp of the sugar into the leek, then another 8 tbsp.", "", -1,
     NULL, NULL},
    /* tools */
    {"1 leek", "Blend the leek with a stick blender.", "equipment: [large pan]\n",
     RULE_TOOL_UNLISTED, "stick blender", ""},
    {"1 leek", "Blend the leek with a stick blender.", "equipment: [hand blender]\n", -1, NULL,
     NULL},
    {"1 leek", "Blend the leek with a stick blender.", "", -1, NULL, NULL},
};

static void
finds_what_is_wrong_and_only_that(void **state)
{
    (void)state;
    size_t wrong = 0;
    for (size_t i = 0; i < sizeof tried / sizeof *tried; i++) {
        const struct tried *t = &tried[i];
        struct arena *a = arena_open(16384);
        struct whole_post w;
        struct mentions m;
        read_whole_post(a, compose(a, "A dish", t->keys, t->lines, t->steps, NULL), &w);
        judge(a, &w, &m);
        const struct notice *n = w.notices.count > 0 ? &w.notices.items[0] : NULL;
        bool right = t->rule < 0 ? n == NULL
                                 : n != NULL && w.notices.count == 1 && (int)n->rule == t->rule &&
                                       slice_is(n->what, t->what) && slice_is(n->more, t->more) &&
                                       n->place.line > 0;
        if (!right) {
            print_error("%s / %s: %zu notices; %d “%.*s” %.*s\n", t->lines, t->steps,
                        w.notices.count, n != NULL ? (int)n->rule : -1,
                        n != NULL ? (int)n->what.length : 0, n != NULL ? n->what.at : "",
                        n != NULL ? (int)n->more.length : 0, n != NULL ? n->more.at : "");
            wrong++;
        }
        arena_close(a);
    }
    assert_int_equal(wrong, 0);
}

static void
knows_parts_by_name(void **state)
{
    (void)state;
    static const char post[] =
        "---\ntitle: Fingers\nportions: 4\ningredients:\n  The fingers:\n    - 200 g polenta\n"
        "  The relish:\n    - 3 tomatoes\n---\n\n## Method\n\n### The fingers\n\n1. Boil the "
        "polenta.\n\n"
        "### %s\n\n1. Simmer the tomatoes.\n";
    static const struct {
        const char *name;
        size_t count;
    } names[] = {{"The relish", 0}, {"Tomato relish", 0}, {"To finish", 0}, {"The icing", 1}};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        struct arena *a = arena_open(16384);
        struct whole_post w;
        struct mentions m;
        struct text bytes = text_new(a);
        struct slice rest = slice_of(post);
        size_t at = slice_find(rest, "%s", 0);
        text_add(&bytes, slice_part(rest, 0, at));
        text_add_string(&bytes, names[i].name);
        text_add(&bytes, slice_part(rest, at + 2, rest.length));
        read_whole_post(a, bytes.bytes, &w);
        judge(a, &w, &m);
        assert_int_equal(count_rule(&w.notices, RULE_PART_UNKNOWN), names[i].count);
        arena_close(a);
    }
}

static void
tells_which_ingredient_is_meant(void **state)
{
    (void)state;
    struct arena *a = arena_open(16384);
    struct whole_post w;
    struct mentions m;
    read_whole_post(a,
                    compose(a, "A dish", "",
                            "1 tbsp tomato paste; 2 tomatoes; 1 tbsp sesame oil; 2 tbsp olive oil",
                            "Stir the tomato paste into the chopped tomatoes with the olive oil.",
                            NULL),
                    &w);
    judge(a, &w, &m);
    static const size_t meant[] = {0, 1, 3};
    assert_int_equal(m.count, 3);
    for (size_t i = 0; i < 3; i++)
        assert_int_equal(m.items[i].ingredient, meant[i]);
    struct slice text = w.post.body.parts[0].steps[0].text;
    assert_true(slice_is(slice_part(text, m.items[0].from, m.items[0].to), "tomato paste"));
    arena_close(a);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(finds_what_is_wrong_and_only_that),
        cmocka_unit_test(knows_parts_by_name),
        cmocka_unit_test(tells_which_ingredient_is_meant),
    };
    return cmocka_run_group_tests(tests, load_tables, drop_tables);
}
