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
#include "reckon/beside.h"

struct outcome;

struct member {              /* one dish of a round-up */
    struct slice slug;       /* of the post that is gathered; or of the dish's part of the page */
    struct place place;      /* where the round-up names it */
    struct outcome *outcome; /* NULL: there is no such post, or it cannot be gathered */
};

struct linked_post {         /* that the text links to, by its file's name */
    struct slice name, slug; /* slug empty: there is no such post */
};

struct linked_posts {
    struct linked_post *items;
    size_t count, room;
};

struct outcome {
    struct post post;
    const struct tables *tables;
    struct phase_stand *phases; /* tables->limits.phase_count of them; of a round-up those of the
                                   dish that stands worst; unknown where it has none */
    /* of a recipe; empty for a round-up, whose dishes have their own */
    struct dish dish;
    struct choices choices;   /* in the site's phase */
    struct remedies remedies; /* in the site's phase */
    struct beside beside;     /* in the site's phase */
    struct nutrition nutrition;
    struct schedule schedule;
    struct microwave microwave;
    struct names names;
    struct clauses clauses;           /* what happens in the method, notes and prose */
    struct method_foods method_foods; /* that the list lacks */
    struct hazards hazards;
    struct mentions mentions;
    struct claims claims;          /* of a round-up: claims alone, held for every member */
    const struct outcome *part_of; /* of a dish in the file of a round-up: that; else NULL */
    /* of a round-up, in its order */
    struct member *members;
    size_t member_count;
    struct linked_posts linked;
    struct picture picture;
    struct clips clips;
    bool reviewed; /* by whom the post says, and what was signed is as it was */
    struct findings findings;
    struct reads *reads; /* writers look up through it too */
    bool publishable;    /* readable, no draft: outputs are made (findings or not) */
};

/* whether the outcome is a round-up's */
static inline bool
outcome_round_up(const struct outcome *o)
{
    return front_matter_round_up(&o->post.front);
}

/* an outcome of which nothing is known yet, its phases unknown; reads will be noted there */
struct outcome outcome_new(struct arena *a, const struct tables *t, struct reads *reads);

#endif
