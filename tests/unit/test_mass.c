#include "own_tables.h"

#include <math.h>

#include "reckon/dish.h"
#include "reckon/dish_build.h"
#include "tables/table_ask.h"

struct line_weighed {
    struct weighing weighing;
    const struct food *food;
    struct notices notices;
};

static struct line_weighed
weigh(const struct tables *t, struct arena *a, const char *region, const char *text)
{
    struct line_weighed out = {.notices = {.arena = a}};
    int r = measures_region(&t->measures, slice_of(region));
    struct lexicon lexicon = tables_lexicon(t, a, r, NULL);
    struct ingredient_line *line = arena_take(a, sizeof *line);
    struct ingredient in;
    memset(&in, 0, sizeof in);
    ingredient_line_read(a, slice_of(text), NULL, &lexicon, &out.notices, line);
    dish_build_line(a, line, r, t, NULL, &out.notices, &in);
    out.weighing = in.options[0].helpings[0].weighing;
    out.food = in.options[0].helpings[0].food;
    return out;
}

static bool
says(const struct line_weighed *l, enum rule rule)
{
    for (size_t i = 0; i < l->notices.count; i++)
        if (l->notices.items[i].rule == rule)
            return true;
    return false;
}

/* grams of the edible part; bounds from SR28 where a row names its NDB number */
static const struct {
    const char *region, *line;
    double low, high;
} line_rows[] = {
    {"us", "1 cup mashed banana", 200, 250},              /* 09040: 225 g */
    {"us", "2 medium bananas", 208, 264},                 /* 09040: 118 g each */
    {"us", "3 cloves garlic", 7, 11},                     /* 11215: 3 g each */
    {"us", "1 x 400 g tin chickpeas, drained", 210, 260}, /* 16358 of 16058: 253 of 448 g */
    {"uk", "2 x 400 g tins chickpeas, drained", 420, 520},
    {"ca", "1 can (540 mL) chickpeas, drained", 280, 355}, /* 16058: 240 g a cup */
    {"au", "400 g tin chickpeas, undrained", 400, 400},
    {"au", "1 tin chickpeas with their liquid", 358, 538}, /* 16058: 448 g */
    {"au", "425 g tin peaches in juice, drained", 220, 300},
    {"au", "425 g tin peaches in juice", 425, 425},
    {"us", "juice of 1 lime", 20, 53}, /* 09160: 44 g */
    {"us", "zest of 1 lemon", 3, 8},
    {"us", "1 stick butter", 110, 116}, /* 01145: 113 g */
    {"us", "500 g peeled and diced pumpkin", 500, 500},
    {"us", "500 g pumpkin, peeled and diced", 345, 355}, /* 11422: refuse 30 % */
    {"us", "3 tbsp + 1 tsp soy sauce", 51, 56},
    {"us", "1 tbsp olive oil, plus 1 tsp to brush", 17.5, 18.5},
    {"au", "1 tbsp olive oil", 17.8, 18.8},
    {"nz", "1 tbsp olive oil", 13.3, 14.2},
    {"us", "2 heaped tsp cornflour", 6, 17},
    {"uk", "10 black olives from a jar", 25, 60},
    {"uk", "1 jar roasted red peppers", 180, 360},
    {"us", "1/2 cup firmly packed brown sugar", 104, 121}, /* 19334: 220 g a cup */
    {"us", "a pinch of salt", 0.1, 1.2},
    {"us", "2.5 cm piece ginger", 5, 16},
    {"us", "6 eggs", 264, 360},                   /* 01123: 44 to 56 g */
    {"us", "2-3 carrots", 100, 216},              /* 11124: 50 to 72 g each */
    {"us", "1 small head cauliflower", 225, 305}, /* 11135: 265 g */
    {"us", "200 g cake flour", 200, 200},
    {"us", "1/2 block firm tofu (150 g)", 150, 150}, /* what goes in, not half of it */
    {"us", "1/2 can (400 g) chickpeas", 105, 130},   /* half of a tin */
    {"uk", "½ a 400g tin of chickpeas, drained", 105, 130},
    {"us", "1 (14- to 16-ounce) package extra-firm tofu", 396, 454},
    {"us", "400 g can tomatoes in juice, chopped", 398, 402},
    {"us", "1 egg yolk plus 1 tbsp water", 13, 21},               /* 01125: 17 g */
    {"us", "1 small piece of ginger (1 cm)", 2, 7},               /* the length tells */
    {"us", "3 bananas, mashed (about 1 1/2 cups)", 295, 380},     /* 09040: 225 g mashed */
    {"au", "1½ cups grated zucchini (about 2 medium)", 157, 244}, /* 11477: 124 g */
    {"uk", "500g/1lb 2oz potatoes, peeled", 375, 500},            /* 11352: refuse 25 % */
    {"au", "2 tbsp (30 g) blueberries", 30, 30},
    {"us", "1 lb. 85% lean ground beef", 453, 454},
    {"us", "2 zucchinis", 236, 646}, /* 11477: 118 to 323 g */
    {"us", "salt", 0, 8},
    {"uk", "1 x 5cm cinnamon stick", 1, 7},
    {"ca", "2 lb (900 g) bone-in, skin-on chicken thighs", 600, 908},
    {"au", "1 large carrot (180g)", 158, 180}, /* sizes differ; weighed is weighed */
    {"us", "1 cup (8 ounces) ricotta", 226, 228},
    {"uk", "juice ½ lemon", 15, 31}, /* 09152: 48 g a lemon */
    {"uk", "small bunch coriander, chopped", 30, 70},
    {"uk", "thumb-sized piece ginger, grated", 15, 40},
};

static void
lines_come_to_grams(void **state)
{
    const struct tables *t = *state;
    struct arena *a = arena_open(1 << 16);
    for (size_t i = 0; i < sizeof line_rows / sizeof *line_rows; i++) {
        struct line_weighed l = weigh(t, a, line_rows[i].region, line_rows[i].line);
        struct span e = l.weighing.edible;
        if (!l.weighing.known || !span_valid(e) || e.low < line_rows[i].low - 1e-9 ||
            e.high > line_rows[i].high + 1e-9)
            fail_msg("%s: %g to %g, not %g to %g", line_rows[i].line, e.low, e.high,
                     line_rows[i].low, line_rows[i].high);
        assert_int_equal(l.notices.count, 0);
    }
    arena_close(a);
}

/* what nobody has weighed has no weight, least of all that of another piece */
static void
other_pieces_lend_no_weight(void **state)
{
    static const char *const lines[] = {"1 can peaches",     "1 can oysters",
                                        "6 cucumber sticks", "1 stick fennel",
                                        "2 leaves fennel",   "1 piece of watermelon"};
    const struct tables *t = *state;
    struct arena *a = arena_open(1 << 16);
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++) {
        struct line_weighed l = weigh(t, a, "us", lines[i]);
        if (l.food == NULL || l.weighing.known)
            fail_msg("%s: weighed %g", lines[i], l.weighing.grams.mid);
        assert_true(says(&l, RULE_WEIGHT_UNKNOWN));
    }
    assert_true(weigh(t, a, "us", "2 bay leaves").weighing.known);
    assert_true(weigh(t, a, "us", "2 tea bags").weighing.known);
    arena_close(a);
}

static void
bought_is_more_than_eaten(void **state)
{
    const struct tables *t = *state;
    struct arena *a = arena_open(1 << 16);
    /* sr28 09040: 118 g edible, 36 % refuse */
    struct line_weighed counted = weigh(t, a, "us", "1 medium banana");
    assert_true(fabs(counted.weighing.edible.mid - 118) < 0.01);
    assert_true(fabs(counted.weighing.grams.mid - 118 / 0.64) < 0.01);
    struct line_weighed bought = weigh(t, a, "us", "200 g bananas");
    assert_true(bought.weighing.grams.mid == 200);
    assert_true(fabs(bought.weighing.edible.mid - 128) < 0.01);
    assert_non_null(bought.weighing.edible_share);
    /* two bananas weigh 240 g only when peeled */
    struct line_weighed peeled = weigh(t, a, "us", "2 bananas (240 g)");
    assert_true(peeled.weighing.edible.mid == 240);
    assert_int_equal(peeled.notices.count, 0);
    arena_close(a);
}

static void
two_measures_agree_or_are_told(void **state)
{
    const struct tables *t = *state;
    static const char *const agree[] = {
        "1 cup (170 g) coarse polenta",
        "1/2 cup (110 g) firmly packed brown sugar",
        "1 cup / 250 ml milk",
        "2 oz (57 g) butter",
        "1 cup (250 ml) water",
        "1/4 cup (60 g) coconut milk",
        "1/4 cup (60 g) coconut yoghurt",
        "1/2 cup (125 ml) almond milk",
    };
    static const char *const differ[] = {
        "1 cup (120 g) rolled oats",
        "2 tbsp (60 g) plain flour",
        "1 tbsp (50 ml) olive oil",
        "1 cup (500 g) white sugar",
    };
    struct arena *a = arena_open(1 << 16);
    for (size_t i = 0; i < sizeof agree / sizeof *agree; i++) {
        struct line_weighed l = weigh(t, a, "au", agree[i]);
        if (says(&l, RULE_MEASURES_DISAGREE))
            fail_msg("%s: %.*s", agree[i], SLICE_ARGS(l.notices.items[0].more));
        assert_int_equal(l.weighing.count, 2);
    }
    for (size_t i = 0; i < sizeof differ / sizeof *differ; i++) {
        struct line_weighed l = weigh(t, a, "au", differ[i]);
        if (!says(&l, RULE_MEASURES_DISAGREE))
            fail_msg("%s: nothing is said", differ[i]);
    }
    struct line_weighed oats = weigh(t, a, "au", differ[0]);
    assert_true(oats.weighing.grams.mid == 120); /* the weighed one is used */
    assert_true(slice_find(oats.notices.items[0].more, "110 g, not 120 g", 0) != SIZE_MAX);
    arena_close(a);
}

static void
what_is_not_known_is_said(void **state)
{
    const struct tables *t = *state;
    struct arena *a = arena_open(1 << 16);
    struct line_weighed l = weigh(t, a, "us", "vanilla extract");
    assert_true(says(&l, RULE_AMOUNT_MISSING) && !l.weighing.known && l.weighing.unmeasured);
    l = weigh(t, a, "us", "3 sheets honey");
    assert_true(says(&l, RULE_WEIGHT_UNKNOWN) && !l.weighing.known);
    l = weigh(t, a, "us", "2 cups moon dust");
    assert_true(says(&l, RULE_FOOD_UNKNOWN) && !l.weighing.known);
    l = weigh(t, a, "us", "20 g moon dust");
    assert_true(l.weighing.known && l.weighing.grams.mid == 20 && l.food == NULL);
    l = weigh(t, a, "us", "salt to taste");
    assert_true(l.weighing.known && l.weighing.unmeasured && l.weighing.grams.low == 0);
    assert_int_equal(l.notices.count, 0);
    l = weigh(t, a, "us", "1 tbsp olive oil, plus extra to serve");
    assert_true(l.weighing.known && l.weighing.unmeasured);
    arena_close(a);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(lines_come_to_grams),
        cmocka_unit_test(other_pieces_lend_no_weight),
        cmocka_unit_test(bought_is_more_than_eaten),
        cmocka_unit_test(two_measures_agree_or_are_told),
        cmocka_unit_test(what_is_not_known_is_said),
    };
    return cmocka_run_group_tests(tests, take_repository_tables, drop_repository_tables);
}
