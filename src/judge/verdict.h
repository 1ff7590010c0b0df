/* The verdict on a portion in plain words: limits of what, for whom, what is nearest, which choice
 * decides, how sure it is. */
#ifndef JUDGE_VERDICT_H
#define JUDGE_VERDICT_H

#include "reckon/choices.h"

struct verdict_asked {
    const struct dish *dish;
    const struct tables *tables;
    int phase;
    const struct phase_stand *stand; /* in that phase */
    const struct choices *choices;   /* in that phase; NULL: not laid */
    int region;                      /* whose names of foods */
};

/* plain text, each a sentence or more, or empty where there is nothing to say */
struct verdict {
    struct slice standing; /* "One portion stays within the limits for short-chain carbohydrates
                              (elimination phase)." */
    struct slice nearest;  /* "Nearest: strawberries, at 72 % of the limit for fructan; all together
                              38 % of a sitting." */
    struct slice choice;   /* "Within with the lactose-free yoghurt, over otherwise." */
    struct slice sureness; /* "By the spread of figures and amounts, the chance of being over is 12
                              %. Half of the share rests on figures from memory." */
};

void verdict_words(struct arena *a, const struct verdict_asked *asked, struct reads *reads,
                   struct verdict *out);

/* all four, one behind the other */
struct slice verdict_sentences(struct arena *a, const struct verdict *v);

#endif
