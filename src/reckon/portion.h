/* How one portion stands against the limits of a phase, over every way to make the dish: each
 * food's serve, what is limited over the portion, and the sitting. */
#ifndef RECKON_PORTION_H
#define RECKON_PORTION_H

#include "reckon/share.h"

/* one limit over all variants; worst and best are those of the largest and the least standing, and
 * among these of share */
struct limit_stand {
    struct limit_case of;
    struct share worst, best;
    enum standing standing, best_standing;
    size_t *rows; /* the choices that it hangs on: ingredients */
    size_t row_count;
    double way_count;        /* the product of their ways */
    enum standing *resolved; /* by way of each of its rows, the last changing first; NULL: so many
                               that only the extremes were reckoned, by the ways that bring most
                               and least of it */
};

/* a group over all foods of the portion, and how it stands: of a limit for one food, the nearest */
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

struct phase_stand {
    struct limit_stand *limits; /* nearest first: by standing, then by share */
    size_t limit_count;
    const struct limit_stand *nearest; /* of those but the sitting; NULL: nothing is carried */
    const struct limit_stand *whole;   /* the sitting; NULL: nothing counts, or there is no limit */
    struct group_stand groups[GROUPS];
    bool sitting_limited;
    struct span sitting, sitting_share; /* g, and parts of the limit; worst variant */
    enum standing sitting_standing;
    enum standing standing, best_standing; /* of the whole portion: worst and best variant */
    double room;  /* how many times as large the portion may be and stand as it does; of one that is
                     over, or unknown, 0 */
    int tightest; /* group of the nearest limit but the sitting, -1 when none is carried */
};

/* Over all variants; the best is that of the most portions that the dish says it makes. With very
 * many variants the best is one that exists, though perhaps not the very best. Where the dish does
 * not say how many portions it makes, the whole of it is reckoned as one and stands within, or
 * unknown. */
void portion_stand(struct arena *a, const struct dish *d, const struct tables *t, int phase,
                   struct reads *reads, struct phase_stand *out);

/* whether a dish stands no worse than `most`, within or unknown: for trials, which stop at the
 * first limit that it does not keep */
bool portion_keeps(struct arena *a, const struct dish *d, const struct tables *t, int phase,
                   struct reads *reads, enum standing most);

/* the same from a sheet that is laid already */
void sheet_stand(struct arena *a, const struct sheet *s, int phase, struct reads *reads,
                 struct phase_stand *out);

/* the standing of one variant; ways: by ingredient, a number into its row's ways. `largest` gets
 * the limit that it stands worst by, or NULL */
enum standing portion_variant(const struct sheet *s, const struct phase_stand *stand,
                              const uint8_t *ways, const struct limit_stand **largest);

#endif
