/* Everything known of one post: what is written out, and what the ledger keeps. */
#ifndef COMPILE_OUTCOME_H
#define COMPILE_OUTCOME_H

#include "judge/claims.h"
#include "judge/clips.h"
#include "judge/clauses.h"
#include "judge/hazards.h"
#include "judge/method.h"
#include "judge/picture.h"
#include "judge/recommended.h"
#include "judge/rules.h"
#include "judge/standing.h"
#include "judge/timing.h"

struct outcome {
    struct post post;
    const struct tables *tables;
    struct dish dish;
    struct phase_stand *phases; /* tables->limits.phase_count of them */
    struct choices choices;     /* in the site's phase */
    struct remedies remedies;   /* in the site's phase */
    struct nutrition nutrition;
    struct schedule schedule;
    struct microwave microwave;
    struct names names;
    struct clauses clauses; /* what happens in the method, notes and prose */
    struct claims claims;
    struct hazards hazards;
    struct mentions mentions;
    struct picture picture;
    struct clips clips;
    struct findings findings;
    struct reads *reads; /* writers look up through it too */
    bool publishable;    /* readable, no draft: outputs are made (findings or not) */
};

/* the whole way from bytes to outcome; bytes and tables must outlive the arena. Never fails: what
 * is wrong with the post is in the findings. Memory that runs out jumps to the arena's guard.
 * Without a finder, the picture is taken to be there. */
void outcome_compile(struct arena *a, const char *path, struct slice bytes,
                     const struct tables *tables, const struct picture_finder *finder,
                     struct reads *reads, struct outcome *out);

#endif
