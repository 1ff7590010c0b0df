/* A carbohydrate group over all foods of a portion: how much of it there is, and how the nearest
 * limit of it stands. */
#ifndef RECKON_GROUP_STAND_H
#define RECKON_GROUP_STAND_H

#include "reckon/limit_stand.h"

/* of a limit for one food, the nearest */
struct group_stand {
    bool limited; /* the phase has a limit for it; false too where no variant carries it */
    bool carried; /* some variant carries some of it (high > 0) */
    struct span load, best_load;   /* g in one portion, all foods: worst and best variant */
    struct span share, best_share; /* of the limit that is nearest: 5th, 50th, 95th percentile */
    double limit;                  /* g: that limit */
    double chance;                 /* of being over it, worst variant */
    bool fresh_allowance;          /* it is the larger allowance for fresh produce */
    enum standing standing, best_standing;
    bool unknown;              /* a figure that nobody has decides */
    size_t unknown_ingredient; /* the one that lacks it; SIZE_MAX when none */
    double trace_share;        /* what has no figure could add at most */
    size_t chief;              /* ingredient that carries most of it; SIZE_MAX: none */
    double chief_share;        /* its part of `load.mid` (0..1) */
};

/* limits: of one phase over the sheet, the nearest first */
void group_stand_reckon(const struct sheet *s, enum group g, const struct limit_stand *limits,
                        size_t limit_count, struct group_stand *out);
/* 5th and 95th percentile about the middle of a share */
struct span group_stand_span(const struct share *s);

#endif
