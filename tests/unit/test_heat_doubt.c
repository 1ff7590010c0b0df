/* What is said of a heat that no oven is set to. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "reckon/heat_doubt.h"

/* 350 degrees C is the 350 °F of many recipes, 177 °C; a range counts by its middle, so that 280 to
 * 310 °C is no heat above 300; 180 °F is the 180 °C of many more */
static void
the_other_scale_is_named_where_it_makes_an_ovens_heat(void **state)
{
    (void)state;
    static const struct {
        enum heat_scale scale;
        struct span value, celsius;
        const char *words;
    } rows[] = {
        {HEAT_CELSIUS,
         {350, 350, 350},
         {350, 350, 350},
         "an oven reaches about 275 °C; perhaps 350 °F was meant"},
        {HEAT_CELSIUS, {280, 295, 310}, {280, 295, 310}, "nothing bakes at it in that time"},
        {HEAT_CELSIUS, {1000, 1000, 1000}, {1000, 1000, 1000}, "an oven reaches about 275 °C"},
        {HEAT_FAHRENHEIT,
         {180, 180, 180},
         {82.2, 82.2, 82.2},
         "nothing bakes at it in that time; perhaps 180 °C was meant"},
        {HEAT_GAS, {12, 12, 12}, {0, 0, 0}, "gas marks go to 9"},
    };
    struct arena *a = arena_open(4096);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const struct heat h = {
            .scale = rows[i].scale, .value = rows[i].value, .celsius = rows[i].celsius};
        const struct slice words = heat_doubt_words(a, &h);
        if (!slice_is(words, rows[i].words))
            fail_msg("%.*s, not: %s", SLICE_ARGS(words), rows[i].words);
    }
    arena_close(a);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_other_scale_is_named_where_it_makes_an_ovens_heat)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
