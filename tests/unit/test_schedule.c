/* Schedules of methods, worked by hand: the sums stand beside each. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "english.h"
#include "reckon/schedule.h"

enum { M = 60, H = 3600 };

static const struct worked {
    const char *method;
    double low, high;                  /* minutes, all of it */
    double attended, resting, cooking; /* minutes, longest */
} worked[] = {
    /* polenta: stir 5, chill 60, bake 20 to 25 */
    {"1. Bring the water to the boil, rain in the polenta and stir for 5 minutes.\n"
     "2. Spread in the tin and chill for 1 hour.\n"
     "3. Cut into 24 fingers and bake for 20 to 25 minutes, turning after 10.\n",
     85, 90, 5, 60, 25},
    /* pancakes: rest 10, fry 3 batches of 2 + 1 min */
    {"1. Whisk the batter and leave it to rest for 10 minutes.\n"
     "2. In three batches, fry the pancakes for 2 minutes, then turn and fry 1 minute more.\n",
     19, 19, 9, 10, 0},
    /* curry: fry 5, simmer 20 beside rice 12 (and 5 to rest) */
    {"1. Fry the onion for 5 minutes.\n"
     "2. Add the tomatoes and simmer for 20 minutes, stirring occasionally.\n"
     "3. Meanwhile, cook the rice for 12 minutes and leave to stand for 5 minutes.\n",
     25, 25, 5, 5, 32},
    /* the same within one step */
    {"1. Simmer the lentils for 25 minutes. Meanwhile, fry the leek for 8 minutes. Drain the "
     "lentils, add the leek and warm through for 2 minutes.\n",
     27, 27, 10, 0, 25},
    /* beans: soak 8 to 12 h, boil 10, simmer 45 to 60; the last 10 is inside */
    {"1. Soak the beans overnight.\n"
     "2. Boil hard for 10 minutes, then simmer for 45 minutes to 1 hour. Salt them for the last 10 "
     "minutes.\n",
     535, 790, 0, 720, 70},
    /* steak: 3 per side = 6, rest 5 */
    {"1. Sear the steaks for 3 minutes per side.\n2. Rest for 5 minutes before slicing.\n", 11, 11,
     6, 5, 0},
    /* chocolate: intervals count for nothing */
    {"1. Melt in the microwave at 600 W in 20-second bursts, stirring every time.\n"
     "2. Chill until set, about 30 minutes.\n",
     30, 30, 0, 30, 0},
    /* bread: knead 10, prove 60-90, bake 35, cool 60; 30 before serving is when */
    {"1. Knead for 10 minutes by hand or 6 minutes in a mixer.\n"
     "2. Prove for 1 to 1½ hours.\n"
     "3. Bake for 35 minutes; cover for the first 20 minutes.\n"
     "4. Cool for an hour. Take the butter out 30 minutes before serving.\n",
     161, 195, 10, 150, 35},
    /* keeping and day-before are no part of it */
    {"1. Marinate for at least 2 hours or overnight.\n"
     "2. Grill for 4 minutes on each side.\n"
     "3. Keeps for up to 3 days in the fridge.\n",
     128, 728, 8, 720, 0},
    /* while the cake bakes: beside; while it cools: after the baking */
    {"1. Bake the cake for 40 minutes.\n"
     "2. While the cake bakes, whisk the cream for 3 minutes.\n"
     "3. While it cools, stir the glaze for 5 minutes.\n",
     45, 45, 8, 0, 40},
    /* soup: 5 more is a further 5; up to 10 may be none */
    {"1. Sweat the carrots for 10 minutes, add the stock and simmer for 15 minutes.\n"
     "2. Add the peas and simmer another 5 minutes.\n"
     "3. Let it stand for up to 10 minutes.\n",
     30, 40, 10, 10, 20},
    /* restated and alternative stretches count once: 6 to 8 or 3 to 4; overnight is the 8 to 16 */
    {"1. Cook on low for 6 to 8 hours or on high for 3 to 4 hours.\n"
     "2. Chill overnight, 8 to 16 hours.\n"
     "3. Brown in two batches, 8 minutes in all.\n",
     668, 1448, 8, 960, 480},
    /* bare numbers: 25 + 10; 3 + 2; 12 for each of two trays */
    {"1. Pressure cook for 25 minutes and release naturally for 10.\n"
     "2. Fry for 3 minutes on the first side and 2 on the second.\n"
     "3. Bake the first tray for 12 minutes, then repeat with the second tray.\n",
     64, 64, 5, 10, 49},
    /* what runs beside need not be waited for on the shortest way: 10 + 10, else 16 + 10 */
    {"1. Simmer the sauce for 10 minutes.\n"
     "2. Meanwhile, boil the rice for 16 minutes.\n"
     "3. Add the beans to the sauce and simmer for 10 minutes.\n",
     20, 26, 0, 0, 36},
    /* two meanwhiles beside one bake: 60; 20 and 15 fit in */
    {"1. Roast the squash for 1 hour.\n"
     "2. Meanwhile, simmer the millet for 20 minutes.\n"
     "3. Meanwhile, toast the seeds for 5 minutes.\n"
     "4. Toss together and serve within 10 minutes.\n",
     60, 60, 5, 0, 80},
    /* what a meanwhile begins goes on beside: 60; by all one after the other 60 + 15 */
    {"1. Roast the squash for 1 hour.\n"
     "2. Meanwhile, boil the pasta for 12 minutes.\n"
     "3. Drain the pasta and toss it with the butter for 3 minutes.\n"
     "4. Serve the squash with the pasta.\n",
     60, 63, 3, 0, 72},
    /* a step that repeats the one before: 10 twice, and the rest once */
    {"1. Rest the batter for 20 minutes.\n"
     "2. Fry half of the batter for 10 minutes.\n"
     "3. Repeat with the rest.\n",
     40, 40, 20, 20, 0},
    /* trays that are told */
    {"1. Bake one tray at a time for 15 minutes; there will be four trays.\n", 60, 60, 0, 0, 60},
    /* an oven that is off rests */
    {"1. Bake for 1 hour and leave in the switched-off oven for 2 hours.\n", 180, 180, 0, 120, 60},
    /* what went on until then: 20 of roasting and 20 to 25 more, hands free */
    {"1. Roast the potatoes. After 20 minutes, turn them; roast for another 20-25 minutes.\n", 40,
     45, 0, 0, 45},
    /* "early" is when; a promise within a step is no step */
    {"1. Bake for 30 minutes. Take it out 10 minutes early if you like it soft.\n"
     "2. Ready in 20 minutes, all told. Simmer for 15 minutes.\n",
     45, 45, 0, 0, 45},
    /* stirring in the last five leaves the hands free; nobody stirs for days */
    {"1. Cook, uncovered, until thick: 25 to 30 minutes, stirring in the last five.\n"
     "2. Sit the jar somewhere warm for 3–5 days, opening it once a day.\n",
     4345, 7230, 0, 7200, 30},
    /* the first 20, then 15; a final minute is a minute more */
    {"1. Bake for the first 20 minutes covered, then uncover and bake for 15 minutes.\n"
     "2. Stir-fry for 1 minute, add the beans for 2 minutes, then the sauce for a final minute.\n",
     39, 39, 4, 0, 35},
    /* 60 to 75; ¾ of an hour; what hangs on an "if" may be none; 3 to 5 by the cook's choice */
    {"1. Roast for 1 hour to 1 hour 15.\n2. Simmer for 3/4 of an hour.\n"
     "3. Bake for 25 minutes. If it is not brown, bake another 5 minutes.\n"
     "4. Steep 3–4 min (5 min if you like it strong).\n",
     133, 155, 0, 5, 150},
    /* a temperature ends no range of hours */
    {"1. Simmer for 3 hours, to 68 °C.\n2. Boil the jam for 15 minutes, to 104 °C (220 °F).\n", 195,
     195, 0, 0, 195},
    /* doubling is rest; a jar that stands for days is no storage */
    {"1. Allow the dough to double in size, about an hour, then knock back and leave for another "
     "half hour.\n",
     90, 90, 0, 90, 0},
    {"1. Stand the jar in a warm spot for five days to a week.\n", 7200, 10080, 0, 10080, 0},
    /* batches and sides: 1 + 20 + 4 x 2 x (2 to 3) */
    {"1. Whisk the batter for 1 minute.\n2. Rest the batter 20 minutes.\n"
     "3. Fry in 4 batches, 2–3 minutes per side.\n4. Keep warm in a 100 °C oven.\n",
     37, 45, 25, 20, 0},
};

static struct schedule
lay(struct arena *a, const char *method)
{
    struct notices notices = {.arena = a};
    struct body body;
    struct schedule s;
    const struct slice text = text_formatted(a, "## Method\n%s", method);
    body_read(a, &(struct body_range){text, 0, text.length, 1, english()}, BODY_RECIPE, &notices,
              &body);
    schedule_read(a, &body, NULL, &s);
    return s;
}

static void
adds_up_as_by_hand(void **state)
{
    (void)state;
    struct arena *a = arena_open(4096);
    for (size_t i = 0; i < sizeof worked / sizeof *worked; i++) {
        const struct worked *e = &worked[i];
        struct schedule s = lay(a, e->method);
        if (s.total.low != e->low * M || s.total.high != e->high * M)
            fail_msg("%s: %g to %g min", e->method, s.total.low / M, s.total.high / M);
        if (s.attended.high != e->attended * M || s.resting.high != e->resting * M ||
            s.cooking.high != e->cooking * M)
            fail_msg("%s: attended %g, resting %g, cooking %g", e->method, s.attended.high / M,
                     s.resting.high / M, s.cooking.high / M);
    }
    arena_close(a);
}

static void
parts_follow_each_other_but_may_overlap(void **state)
{
    (void)state;
    struct arena *a = arena_open(4096);
    struct schedule s = lay(a, "### The base\n1. Chill for 1 hour.\n### The top\n"
                               "1. Simmer for 20 minutes.\n");
    assert_float_equal(s.total.low, 80 * M, 0);
    assert_float_equal(s.least, 60 * M, 0);
    assert_int_equal(s.count, 2);
    assert_float_equal(s.steps[1].start.mid, 60 * M, 0);
    arena_close(a);
}

static void
says_nothing_where_nothing_is_stated(void **state)
{
    (void)state;
    struct arena *a = arena_open(4096);
    struct schedule s = lay(a, "1. Mix it all.\n2. Bake until done.\n");
    assert_false(s.stated);
    assert_float_equal(s.total.high, 0, 0);
    arena_close(a);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(adds_up_as_by_hand),
        cmocka_unit_test(parts_follow_each_other_but_may_overlap),
        cmocka_unit_test(says_nothing_where_nothing_is_stated),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
