/* Amounts in the kitchens of other regions. */
#include "made_dish.h"

#include "reckon/fraction.h"
#include "reckon/household_room.h"

enum { AU, US, UK }; /* in made_measures' order */

static const char foods[] = "foods:\n"
                            "  flour: {name: flour, class: grain, forms: {whole: {density: {low: "
                            "0.45, mid: 0.5, high: 0.55, source: t, basis: published}}}}\n"
                            "  milk: {name: milk, class: dairy, forms: {whole: {density: {low: "
                            "1.02, mid: 1.03, high: 1.04, source: t, basis: published}}}}\n"
                            "  tomato: {name: tomato, class: vegetable, forms: {whole: {}}}\n";

static void
writes_vulgar_fractions(void **state)
{
    (void)state;
    static const struct {
        double value;
        const char *words;
    } fractions[] = {{1.5, "1½"},  {2.0 / 3, "⅔"}, {2.25, "2¼"}, {12, "12"}, {1.0 / 3, "⅓"},
                     {0.125, "⅛"}, {0.07, "0.07"}, {1, "1"},     {0.75, "¾"}};
    struct arena *a = arena_open(4096);
    for (size_t i = 0; i < sizeof fractions / sizeof *fractions; i++) {
        struct text t = text_new(a);
        fraction_add(&t, fractions[i].value);
        assert_string_equal(t.bytes, fractions[i].words);
    }
    arena_close(a);
}

static void
fits_volumes_to_spoons_and_cups(void **state)
{
    (void)state;
    static const struct {
        int region;
        double ml;
        bool down;
        const char *words;
        double rounded;
    } volumes[] = {
        {AU, 250, false, "1 cup", 250},
        {AU, 20, false, "1 tbsp", 20},
        {AU, 5, false, "1 tsp", 5},
        {AU, 375, false, "1½ cups", 375},
        {AU, 166, false, "⅔ cup", 166.6667},
        {AU, 4.9, true, "¾ tsp", 3.75}, /* never up to the 5 mL */
        {AU, 249, true, "¾ cup + 3 tbsp", 247.5},
        {AU, 1, true, "", 0}, /* less than a quarter of a teaspoon */
        {US, 236.5882365, false, "1 cup", 236.5882},
        {US, 250, false, "1 cup + 1 tbsp", 251.375},
        {UK, 300, false, "300 mL", 300},
        {UK, 15, false, "1 tbsp", 15},
    };
    struct made *m = made_open(foods);
    for (size_t i = 0; i < sizeof volumes / sizeof *volumes; i++) {
        double rounded;
        struct slice words = household_volume(m->arena, volumes[i].ml, volumes[i].region,
                                              &m->tables, volumes[i].down, NULL, &rounded);
        if (!slice_is(words, volumes[i].words) || fabs(rounded - volumes[i].rounded) > 0.001)
            fail_msg("%g mL: “%.*s” (%g mL), not “%s”", volumes[i].ml, SLICE_ARGS(words), rounded,
                     volumes[i].words);
    }
    made_close(m);
}

static void
never_rounds_up_when_asked_not_to(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    for (double ml = 1.3; ml < 3000; ml *= 1.013)
        for (int region = AU; region <= UK; region++) {
            double rounded;
            household_volume(m->arena, ml, region, &m->tables, true, NULL, &rounded);
            if (!(rounded <= ml * (1 + 1e-9)) || rounded < (ml < 10 ? 0.49 : 0.7) * ml)
                fail_msg("%g mL down is %g", ml, rounded);
            household_volume(m->arena, ml, region, &m->tables, false, NULL, &rounded);
            /* between a quarter and half a teaspoon nothing is nearer */
            if (fabs(rounded - ml) > (ml < 5 ? 0.34 : ml < 12 ? 0.21 : 0.13) * ml)
                fail_msg("%g mL is %g", ml, rounded);
        }
    made_close(m);
}

static void
translates(struct made *m, struct helping h, int region, const char *measure, const char *grams)
{
    struct household out;
    household_write(m->arena, &h, region, AU, &m->tables, false, NULL, &out);
    if (!slice_is(out.measure, measure) || !slice_is(out.grams, grams))
        fail_msg("“%.*s”, “%.*s”, not “%s”, “%s”", SLICE_ARGS(out.measure), SLICE_ARGS(out.grams),
                 measure, grams);
}

static void
keeps_the_form_that_the_cook_wrote(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    /* spoons stay spoons: 2 Australian tablespoons are 40 mL, 2⅔ of 15 mL */
    translates(m, made_spooned(m, "milk", 2, "tbsp", 1.03), AU, "2 tbsp", "about 40 g");
    translates(m, made_spooned(m, "milk", 2, "tbsp", 1.03), UK, "2 tbsp + 2 tsp", "about 40 g");
    /* cups become grams where cooks weigh, millilitres where it pours */
    struct helping flour = made_spooned(m, "flour", 1, "cup", 0.5);
    flour.weighing.measured[0].density = &flour.food->forms[0].density;
    translates(m, flour, UK, "", "about 125 g");
    translates(m, flour, US, "1 cup + 1 tbsp", "about 125 g");
    struct helping milk = made_spooned(m, "milk", 1, "cup", 1.03);
    milk.weighing.measured[0].density = &milk.food->forms[0].density;
    translates(m, milk, UK, "250 mL", "250 mL");
    /* weights stay weights, but get cups where few have scales */
    struct helping weighed = made_weighed(m, "flour", span_exact(120));
    translates(m, weighed, AU, "", "120 g");
    translates(m, weighed, UK, "", "120 g");
    translates(m, weighed, US, "1 cup", "about 120 g");
    translates(m, made_counted(m, "tomato", 3, span_make(80, 120, 150)), US, "3", "about 360 g");
    made_close(m);
}

/* 480 g are 16.93 oz, 17 to the nearest half; 90 g 3.17 oz, 3¼ to the nearest quarter */
static void
weighs_in_ounces_what_no_cup_holds(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    translates(m, made_weighed(m, "tomato", span_exact(480)), US, "1 lb 1 oz", "about 480 g");
    translates(m, made_weighed(m, "tomato", span_exact(90)), US, "3¼ oz", "about 90 g");
    translates(m, made_weighed(m, "tomato", span_exact(20)), US, "", "20 g"); /* under an ounce */
    translates(m, made_weighed(m, "tomato", span_exact(480)), UK, "", "480 g");
    made_close(m);
}

/* 125 g of flour are 250 mL; 1 US cup + 1 tbsp holds 251.4 mL, by a density of up to 0.55 138 g,
 * 1.106 times as much. A portion with room for a thirtieth more has none for that, nor for a
 * twentieth more. */
static void
keeps_the_standing_of_the_portion(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    struct helping flour = made_weighed(m, "flour", span_exact(125));
    flour.weighing.measured[0].kind = UNIT_WEIGHT;
    struct phase_stand stand;
    struct household out;
    memset(&stand, 0, sizeof stand);
    stand.room = 2;
    household_write_safely(m->arena, &flour, US, AU, &m->tables, &stand, NULL, &out);
    assert_true(slice_is(out.measure, "1 cup + 1 tbsp"));
    stand.room = 1.03;
    household_write_safely(m->arena, &flour, US, AU, &m->tables, &stand, NULL, &out);
    assert_true(slice_is(out.measure, "4 oz")); /* 4.41 oz, down to the half */
    assert_true(out.grams_rounded <= 125);
    /* written by the cup the span was wide before */
    struct helping cup = made_spooned(m, "flour", 1, "cup", 0.5);
    cup.weighing.measured[0].density = &cup.food->forms[0].density;
    household_write_safely(m->arena, &cup, US, AU, &m->tables, &stand, NULL, &out);
    assert_true(out.by_volume && out.grams_rounded <= 125);
    stand.room = 0;
    stand.standing = STANDING_OVER;
    household_write_safely(m->arena, &cup, US, AU, &m->tables, &stand, NULL, &out);
    assert_true(slice_is(out.measure, "1 cup + 1 tbsp")); /* over stays over */
    made_close(m);
}

static void
takes_a_part_downwards(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    struct slice words;
    double kept;
    struct helping spoons = made_spooned(m, "milk", 2, "tbsp", 1);
    assert_true(household_part(m->arena, &spoons, 0.3, AU, &m->tables, NULL, &words, &kept));
    assert_true(slice_is(words, "2 tsp")); /* 12 mL */
    assert_near(kept, 0.25, 1e-9);
    /* what was spooned stays spooned, what was poured by the cup goes by cup or spoon */
    struct helping many = made_spooned(m, "milk", 16, "tbsp", 1),
                   cup = made_spooned(m, "milk", 2, "cup", 1);
    assert_true(household_part(m->arena, &many, 0.5, AU, &m->tables, NULL, &words, &kept));
    assert_true(slice_is(words, "8 tbsp"));
    assert_true(household_part(m->arena, &cup, 0.5, AU, &m->tables, NULL, &words, &kept));
    assert_true(slice_is(words, "1 cup"));
    assert_true(household_part(m->arena, &cup, 0.06, AU, &m->tables, NULL, &words, &kept));
    assert_true(slice_is(words, "1½ tbsp"));
    struct helping grams = made_weighed(m, "flour", span_exact(170));
    assert_true(household_part(m->arena, &grams, 0.5, AU, &m->tables, NULL, &words, &kept));
    assert_true(slice_is(words, "85 g"));
    assert_true(household_part(m->arena, &grams, 0.1, AU, &m->tables, NULL, &words, &kept));
    assert_true(slice_is(words, "17 g"));
    struct helping things = made_counted(m, "tomato", 3, span_exact(100));
    assert_true(household_part(m->arena, &things, 0.7, AU, &m->tables, NULL, &words, &kept));
    assert_true(slice_is(words, "2"));
    assert_near(kept, 2.0 / 3, 1e-9);
    assert_true(household_part(m->arena, &things, 0.2, AU, &m->tables, NULL, &words, &kept));
    assert_true(slice_is(words, "½"));
    assert_false(household_part(m->arena, &things, 0.05, AU, &m->tables, NULL, &words, &kept));
    made_close(m);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(writes_vulgar_fractions),
        cmocka_unit_test(fits_volumes_to_spoons_and_cups),
        cmocka_unit_test(never_rounds_up_when_asked_not_to),
        cmocka_unit_test(keeps_the_form_that_the_cook_wrote),
        cmocka_unit_test(weighs_in_ounces_what_no_cup_holds),
        cmocka_unit_test(keeps_the_standing_of_the_portion),
        cmocka_unit_test(takes_a_part_downwards),
    };
    return cmocka_run_group_tests_name("household", tests, NULL, NULL);
}
