/* Temperatures as cooks write them. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>

#include "english.h"
#include "read/heat.h"

static const struct expected {
    const char *text;
    size_t count;
    double low, high; /* of the first, in degrees C */
    enum heat_scale scale;
    enum heat_of of;
    bool fan, no_unit;
    size_t pairs;
} expected[] = {
    {"Heat the oven to 180 °C.", 1, 180, 180, HEAT_CELSIUS, HEAT_OF_OVEN, false, false, 0},
    {"Heat the oven to 180C/160C fan/gas 4.", 3, 180, 180, HEAT_CELSIUS, HEAT_OF_OVEN, false, false,
     2},
    {"Preheat the oven to 180 °C (350 °F, gas 4)", 3, 180, 180, HEAT_CELSIUS, HEAT_OF_OVEN, false,
     false, 2},
    {"Preheat oven to 200°C fan (220°C conventional)", 2, 200, 200, HEAT_CELSIUS, HEAT_OF_OVEN,
     true, false, 1},
    {"Preheat to fan 160C and line a tin", 1, 160, 160, HEAT_CELSIUS, HEAT_OF_OVEN, true, false, 0},
    {"Heat oven to 200C/fan 180C/gas 6", 3, 200, 200, HEAT_CELSIUS, HEAT_OF_OVEN, false, false, 2},
    {"Heat oven to 200/180 fan/gas 6.", 3, 200, 200, HEAT_CELSIUS, HEAT_OF_OVEN, false, true, 2},
    {"Bake at gas mark 6", 1, 200, 200, HEAT_GAS, HEAT_OF_OVEN, false, false, 0},
    {"Bake at Gas 4 for an hour", 1, 180, 180, HEAT_GAS, HEAT_OF_OVEN, false, false, 0},
    {"Bake at gas mark ½", 1, 130, 130, HEAT_GAS, HEAT_OF_OVEN, false, false, 0},
    {"Bake at 350 degrees F", 1, 176.667, 176.667, HEAT_FAHRENHEIT, HEAT_OF_OVEN, false, false, 0},
    {"Bake at 350F for 20 minutes", 1, 176.667, 176.667, HEAT_FAHRENHEIT, HEAT_OF_OVEN, false,
     false, 0},
    {"Bake at 180–200 °C", 1, 180, 200, HEAT_CELSIUS, HEAT_OF_OVEN, false, false, 0},
    {"Bake at 180C to 200C", 1, 180, 200, HEAT_CELSIUS, HEAT_OF_OVEN, false, false, 0},
    {"Heat the oven to 180.", 1, 180, 180, HEAT_CELSIUS, HEAT_OF_OVEN, false, true, 0},
    {"Turn down to 160 and bake for 20 minutes.", 1, 160, 160, HEAT_CELSIUS, HEAT_OF_OVEN, false,
     true, 0},
    {"Roast in a hot oven, 220.", 1, 220, 220, HEAT_CELSIUS, HEAT_OF_OVEN, false, true, 0},
    {"Preheat the oven to 400 and oil a tray", 1, 204.444, 204.444, HEAT_CELSIUS, HEAT_OF_OVEN,
     false, true, 0},
    {"Cook until the middle reads 74 °C", 1, 74, 74, HEAT_CELSIUS, HEAT_OF_FOOD, false, false, 0},
    {"Roast until a thermometer in the thickest part shows 165 °F", 1, 73.889, 73.889,
     HEAT_FAHRENHEIT, HEAT_OF_FOOD, false, false, 0},
    {"Heat the oil in a deep pan to 180 °C.", 1, 180, 180, HEAT_CELSIUS, HEAT_OF_OIL, false, false,
     0},
    {"Boil the sugar and water to 118 °C, soft ball.", 1, 118, 118, HEAT_CELSIUS, HEAT_OF_SYRUP,
     false, false, 0},
    {"Pour over water at 80 °C.", 1, 80, 80, HEAT_CELSIUS, HEAT_OF_WATER, false, false, 0},
    {"Leave in a warm place (28 °C) to rise.", 1, 28, 28, HEAT_CELSIUS, HEAT_OF_ROOM, false, false,
     0},
    {"Keep in the freezer at -18 °C.", 1, -18, -18, HEAT_CELSIUS, HEAT_OF_ROOM, false, false, 0},
    {"Warm the milk to 82 ℃.", 1, 82, 82, HEAT_CELSIUS, HEAT_OF_FOOD, false, false, 0},
};

static const char *const harmless[] = {
    "Cut into 24 fingers.",
    "Add 2 c flour and 1 C sugar.",
    "Turn the tray 180 degrees.",
    "Heat on gas for 4 minutes",
    "Roast 400 g carrots.",
    "Bake for 25 to 30 minutes.",
    "A 45 degree angle",
    "Rich in vitamin C, 180 kcal.",
    "Turn the oven up to high for 5 minutes.",
};

static void
finds_each_temperature(void **state)
{
    (void)state;
    struct arena *a = arena_open(4096);
    for (size_t i = 0; i < sizeof expected / sizeof *expected; i++) {
        const struct expected *e = &expected[i];
        struct heats found;
        heats_find(a, words_in(a, slice_of(e->text)), &found);
        if (found.count != e->count)
            fail_msg("%s: %zu temperatures, not %zu", e->text, found.count, e->count);
        const struct heat *h = &found.items[0];
        size_t pairs = 0;
        for (size_t k = 0; k < found.count; k++)
            pairs += found.items[k].pair;
        if (fabs(h->celsius.low - e->low) > 0.01 || fabs(h->celsius.high - e->high) > 0.01)
            fail_msg("%s: %g to %g", e->text, h->celsius.low, h->celsius.high);
        if (h->scale != e->scale || h->of != e->of || h->fan != e->fan ||
            h->no_unit != e->no_unit || pairs != e->pairs)
            fail_msg("%s: scale %d of %d fan %d no_unit %d pairs %zu", e->text, (int)h->scale,
                     (int)h->of, h->fan, h->no_unit, pairs);
    }
    arena_close(a);
}

static void
finds_none_in_harmless_words(void **state)
{
    (void)state;
    struct arena *a = arena_open(4096);
    for (size_t i = 0; i < sizeof harmless / sizeof *harmless; i++) {
        struct heats found;
        heats_find(a, words_in(a, slice_of(harmless[i])), &found);
        if (found.count != 0)
            fail_msg("a temperature in: %s", harmless[i]);
    }
    arena_close(a);
}

static void
finds_powers(void **state)
{
    (void)state;
    struct arena *a = arena_open(4096);
    struct powers found;
    heat_powers_find(
        a,
        words_in(
            a, slice_of("Microwave on high (900 W), then at 450 watts, in an 800-watt oven; 3 W")),
        &found);
    assert_int_equal(found.count, 3);
    assert_float_equal(found.items[0].watts, 900, 0);
    assert_float_equal(found.items[1].watts, 450, 0);
    assert_float_equal(found.items[2].watts, 800, 0);
    arena_close(a);
}

static void
judges_pairs(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        bool agree;
    } pairs[] = {
        {"oven to 180 °C (350 °F)", true},   {"oven to 200 °C (400 °F)", true},
        {"oven to 180 °C (375 °F)", false},  {"oven to 180 °C (400 °F)", false},
        {"oven to 220 °C (350 °F)", false},  {"oven to 200C/180C fan", true},
        {"oven to 200C/200 fan", false},     {"oven to 180C/200C fan", false},
        {"oven to 200C/gas 6", true},        {"oven to 200C/gas 3", false},
        {"core reads 74 °C (165 °F)", true},
    };
    struct arena *a = arena_open(4096);
    for (size_t i = 0; i < sizeof pairs / sizeof *pairs; i++) {
        struct heats found;
        heats_find(a, words_in(a, slice_of(pairs[i].text)), &found);
        assert_int_equal(found.count, 2);
        if (heat_agrees(&found.items[0], &found.items[1]) != pairs[i].agree)
            fail_msg("%s", pairs[i].text);
    }
    arena_close(a);
}

/* C and F: fixed points of water and -40; gas marks: the chart named in heat.c, whose Fahrenheit
 * is 250 + 25 x mark from mark 1 on */
static void
converts_as_published(void **state)
{
    (void)state;
    assert_float_equal(heat_fahrenheit(100), 212, 1e-9);
    assert_float_equal(heat_fahrenheit(0), 32, 1e-9);
    assert_float_equal(heat_celsius(-40), -40, 1e-9);
    for (int mark = 1; mark <= 9; mark++) {
        double celsius = heat_of_gas_mark(mark);
        if (fabs(celsius - heat_celsius(250 + 25 * mark)) > 7.5)
            fail_msg("gas mark %d", mark);
        assert_float_equal(heat_gas_mark(celsius), mark, 0);
    }
    assert_true(isnan(heat_of_gas_mark(12)));
    assert_true(isnan(heat_gas_mark(60)));
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(finds_each_temperature), cmocka_unit_test(finds_none_in_harmless_words),
        cmocka_unit_test(finds_powers),           cmocka_unit_test(judges_pairs),
        cmocka_unit_test(converts_as_published),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
