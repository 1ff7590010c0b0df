/* Declared and promised times, temperatures and powers held against the steps. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "judge/timing.h"
#include "whole_post.h"

static const struct tried {
    const char *title, *keys, *steps;
    int rule;                /* -1: nothing is wrong */
    const char *what, *more; /* of the first; more: its beginning */
} tried[] = {
    /* declared */
    {"Stew", "times: {prep: 10 min, cook: 30 min, total: 20 min}\n", "Simmer.", RULE_TIME_TOTAL,
     "times", "total 20 min, but prep 10 min, cook 30 min make 40 min"},
    {"Stew", "times: {prep: 10 min, cook: 30 min, total: 40 min}\n", "Simmer for 30 minutes.", -1,
     NULL, NULL},
    {"Flan", "times: {prep: 10 min, cook: 30 min}\n", "Bake for 30 minutes.|Chill for 2 hours.",
     RULE_TIME_DECLARED, "prep 10 min, cook 30 min",
     "at least 2 h 30 min: “2 hours” in step 2, “30 minutes” in step 1"},
    {"Flan", "times: {prep: 10 min, cook: 30 min, rest: 2 h}\n",
     "Bake for 30 minutes.|Chill for 2 hours.", -1, NULL, NULL},
    {"Flan", "times: {cook: 20 min, total: 3 h}\n", "Bake for 45 minutes.", RULE_TIME_DECLARED,
     "cook 20 min", "at least 45 min: “45 minutes” in step 1"},
    {"Flan", "times: {rest: 20 min, total: 3 h}\n", "Chill overnight.", RULE_TIME_DECLARED,
     "total 3 h", "at least 8 h"},
    {"Stew", "times: {prep: 10 min}\n", "Simmer for 2 hours.", -1, NULL, NULL},
    {"Stew", "times: {total: 30 min}\n",
     "Simmer for 25 minutes.|Meanwhile, boil the rice for 12 minutes.", -1, NULL, NULL},
    {"Stew", "times: {total: 30 min}\n", "Simmer for 20 to 40 minutes.", -1, NULL, NULL},
    {"Stew", "times: {total: 30 min}\n",
     "Simmer for 25 minutes, stirring every 10 minutes, uncovered for the last 10 minutes.", -1,
     NULL, NULL},
    {"Stew", "times: {total: 30 min}\n", "Simmer for 25 minutes. Keeps for 3 days in the fridge.",
     -1, NULL, NULL},
    {"Pancakes", "times: {total: 20 min}\n",
     "In four batches, fry for 4 minutes, then flip and fry 3 more.", RULE_TIME_DECLARED,
     "total 20 min", "at least 28 min"},
    /* promises */
    {"30-minute stew", "", "Simmer for 2 hours.", RULE_TIME_TITLE, "30-minute", "at least 2 h"},
    {"30-minute stew", "", "Simmer for 20 minutes.", -1, NULL, NULL},
    {"24-hour focaccia", "", "Prove for 26 hours.", -1, NULL, NULL},
    {"Two-minute noodles with peanuts", "", "Simmer for 20 minutes.", -1, NULL, NULL},
    {"Stew", "summary: On the table in half an hour.\n", "Simmer for 2 hours.", RULE_TIME_TITLE,
     "half an hour", "at least 2 h"},
    {"Stew", "summary: Ten minutes of work and a long simmer.\n", "Simmer for 2 hours.", -1, NULL,
     NULL},
    {"Stew", "summary: It simmers for 30 minutes and rests for an hour.\n", "Simmer for 2 hours.",
     -1, NULL, NULL},
    /* temperatures */
    {"Cake", "", "Heat the oven to 180 °C (400 °F).", RULE_HEAT_PAIR, "180 °C (400 °F)",
     "the first is 356 °F"},
    {"Cake", "", "Heat the oven to 200 °C (gas 3).", RULE_HEAT_PAIR, "200 °C (gas 3)",
     "the first is gas mark 6"},
    {"Cake", "", "Heat the oven to 180C/200C fan.", RULE_HEAT_PAIR, "180C/200C fan", "a fan oven"},
    {"Cake", "", "Heat the oven to 180C/160C fan/gas 4.", -1, NULL, NULL},
    {"Cake", "", "Heat the oven to 180 °C (350 °F) and bake until the middle reads 96 °C (205 °F).",
     -1, NULL, NULL},
    {"Cake", "", "Heat the oven to 180.", RULE_HEAT_UNITLESS, "180", ""},
    {"Cake", "", "Turn the tray 180 degrees and bake for 10 minutes.", -1, NULL, NULL},
    /* microwave */
    {"Mug cake", "", "Microwave for 90 seconds.", RULE_MICROWAVE_POWER, "90 seconds", ""},
    {"Mug cake", "", "Microwave at 800 W for 90 seconds.", -1, NULL, NULL},
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
        read_whole_post(a, compose(a, t->title, t->keys, "200 g rice", t->steps, NULL), &w);
        timing_judge(judging(a, &w), &w.microwave);
        const struct notice *n = w.notices.count > 0 ? &w.notices.items[0] : NULL;
        bool right = t->rule < 0
                         ? n == NULL
                         : n != NULL && (int)n->rule == t->rule && slice_is(n->what, t->what) &&
                               slice_begins(n->more, t->more) && n->place.line > 0;
        if (!right) {
            print_error("%s / %s / %s: %zu notices; %d “%.*s” %.*s\n", t->title, t->keys, t->steps,
                        w.notices.count, n != NULL ? (int)n->rule : -1,
                        n != NULL ? (int)n->what.length : 0, n != NULL ? n->what.at : "",
                        n != NULL ? (int)n->more.length : 0, n != NULL ? n->more.at : "");
            wrong++;
        }
        arena_close(a);
    }
    assert_int_equal(wrong, 0);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(finds_what_is_wrong_and_only_that),
    };
    return cmocka_run_group_tests(tests, load_tables, drop_tables);
}
