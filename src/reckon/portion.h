/* What one portion carries of each group and how it stands against the limits of a phase, over
 * every way to make the dish. */
#ifndef RECKON_PORTION_H
#define RECKON_PORTION_H

#include "reckon/variant.h"

struct group_stand {
    bool limited; /* the phase has a limit for it; false too where no variant carries it */
    bool carried; /* some variant carries some of it (high > 0) */
    struct span load, best_load;   /* g in one portion: worst and best variant */
    struct span share, best_share; /* stacked shares: worst and best variant */
    double limit;         /* g: the limit shown for it (of the chief contributor's class) */
    bool fresh_allowance; /* the larger allowance for fresh produce was used */
    enum standing standing, best_standing;
    bool unknown;              /* an ingredient with no figure that could matter */
    size_t unknown_ingredient; /* the first such; SIZE_MAX when none */
    double
        trace_share; /* what ingredients without figures could add at most, where that is a trace */
    size_t chief;    /* ingredient that carries most of it in the worst variant; SIZE_MAX: none */
    double chief_share; /* its part of `share.mid` (0..1) */
};

struct phase_stand {
    struct group_stand groups[GROUPS];
    bool sitting_limited;
    struct span sitting, sitting_share; /* all groups but lactose, worst variant */
    enum standing sitting_standing;
    enum standing standing, best_standing; /* of the whole portion */
    int tightest; /* group with the largest share.mid, -1 when none is carried */
};

/* loads of every helping in the given phase; out[ingredient][option][helping] flattened in order */
struct helping_load *portion_loads(struct arena *a, const struct dish *d, const struct tables *t,
                                   int phase, struct reads *reads, size_t *count);

/* the standing in one phase over all variants. Worst and best are taken end by end (low, mid, high)
 * over all variants and are exact. A group is unknown where what has no figure, at its bound, would
 * bring a variant over the limit. Where the dish does not say how many portions it makes, the whole
 * of it is reckoned as one and stands within, or unknown. */
void portion_stand(struct arena *a, const struct dish *d, const struct tables *t, int phase,
                   struct reads *reads, struct phase_stand *out);

/* the same from a sheet that is laid already */
void sheet_stand(struct arena *a, const struct sheet *s, struct phase_stand *out);

/* the worst share of one column over all variants, and its upper end with bounds */
void sheet_column(const struct sheet *s, size_t column, struct span *share, double *upper);

/* the worst standing of a portion that is `part` of the one the sheet was laid for: where nothing
 * is unsure, as if the sheet were laid anew, but for rounding far within what standing leaves to it
 */
enum standing sheet_worst_of(const struct sheet *s, double part);

/* the worst standing alone, with the largest share.mid over all columns */
enum standing sheet_worst(const struct sheet *s, double *share);

#endif
