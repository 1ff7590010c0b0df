/* What one portion carries of each group and how it stands against the limits of a phase, over
 * every way to make the dish. */
#ifndef RECKON_PORTION_H
#define RECKON_PORTION_H

#include "reckon/dish.h"

/* in order of weight: the standing of a portion is the greatest of its groups'; a known `over` or
 * `may-exceed` outweighs what is unknown */
enum standing {
    STANDING_WITHIN,
    STANDING_CLOSE,      /* mid at close_at or more */
    STANDING_UNKNOWN,    /* an ingredient has no figure */
    STANDING_MAY_EXCEED, /* high over 1.00 */
    STANDING_OVER        /* mid over 1.00 */
};

struct group_stand {
    bool limited;                  /* the phase has a limit for it */
    bool carried;                  /* some variant carries some of it (high > 0) */
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

/* loads of one helping in one portion, for the worksheet */
struct helping_load {
    struct span grams;                    /* edible g in one portion */
    struct span load[GROUPS];             /* g */
    struct span share[GROUPS];            /* against the limit of its class */
    const struct figure *content[GROUPS]; /* BASIS_NONE: not known */
    const struct figure *limit[GROUPS];
    bool known[GROUPS];
    bool trace[GROUPS]; /* not known, but cannot matter */
    bool serve_used;    /* limited by a tested serve alone */
};

/* loads of every helping in the given phase; out[ingredient][option][helping] flattened in order */
struct helping_load *portion_loads(struct arena *a, const struct dish *d, const struct tables *t,
                                   int phase, struct reads *reads, size_t *count);

/* the standing in one phase over all variants */
void portion_stand(struct arena *a, const struct dish *d, const struct tables *t, int phase,
                   struct reads *reads, struct phase_stand *out);

enum standing standing_of(struct span share, double close_at, bool unknown);
const char *standing_word(enum standing s);     /* within, close, may-exceed, over, unknown */
const char *standing_sentence(enum standing s); /* for readers */

#endif
