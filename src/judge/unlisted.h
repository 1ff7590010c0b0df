/* Foods that the method puts in and the list lacks. */
#ifndef JUDGE_UNLISTED_H
#define JUDGE_UNLISTED_H

#include "judge/clauses.h"

struct method_food {
    const struct food *food;
    const struct clause *clause;
    struct slice words; /* as the step has them */
    bool beside;        /* served with the dish, no part of it */
};

struct method_foods {
    struct method_food *items; /* each food once, in the order of the steps */
    size_t count, room;
};

/* notices FOOD_UNLISTED, or FOOD_BESIDE where it is served with the dish: {what} the food's words
 * in the step, {more} empty; each food once. What is only suggested ("or", "if you like", "such
 * as") is left alone. */
void unlisted_judge(const struct judging *j, struct method_foods *out);

/* the dish with what the method adds to it, but not what it is served with, as ingredients behind
 * its own, of no amount: for what must hold of all that is eaten */
const struct dish *unlisted_dish(struct arena *a, const struct dish *d,
                                 const struct method_foods *foods);

#endif
