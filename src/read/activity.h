/* What a cook does while the time runs: hands busy, a pot that cooks by itself, a dough that rests.
 * Known by the verb, as a table. */
#ifndef READ_ACTIVITY_H
#define READ_ACTIVITY_H

#include "read/words.h"

/* in the order of the kinds of WORDS_ACTIVITIES */
enum activity {
    ACTIVITY_NONE,
    ACTIVITY_ATTENDED, /* stir, fry, knead: hands busy or eyes on it */
    ACTIVITY_COOKING,  /* bake, simmer, steam: cooks by itself */
    ACTIVITY_RESTING   /* rest, chill, soak, prove: nothing is done and nothing cooks */
};

/* by any form of the verb ("simmer", "simmering", "simmered") or a noun of it ("a rest") */
enum activity activity_of(const struct words *w, size_t i);
/* the activity that a duration in words first..end belongs to: the nearest verb before it in its
 * clause, else behind it, else the nearest before it in its sentence */
enum activity activity_near(const struct words *w, size_t first, size_t end);

#endif
