/* What one food of a dish brings into one portion, group by group. Contents and limits are read
 * here. */
#ifndef RECKON_LOAD_H
#define RECKON_LOAD_H

#include "reckon/dish.h"

/* loads of one helping in one portion */
struct helping_load {
    struct span grams;         /* edible g in one portion */
    struct span load[GROUPS];  /* g; by a tested serve: share x limit */
    struct span share[GROUPS]; /* against the limit of its class */
    uint8_t told;              /* bits 1 << group: the content is known; see load_content */
    uint8_t touched; /* ... it may bring something: of all others load, share and bound are 0 */
    const struct figure *limit[GROUPS]; /* NULL: not read, or the phase has none */
    bool known[GROUPS];
    bool trace[GROUPS];      /* not known, but cannot pass the limit by itself */
    bool serve_used;         /* the share of the serve's group is grams / tested serve */
    bool serve_disagrees;    /* serve and composition exclude each other; the stricter is used */
    struct span serve_share; /* share of the serve's group that the composition gives one serve */
    double bound[GROUPS];    /* share that what is not known can add at most: INFINITY: no bound */
    bool fresh;              /* fresh produce: fresh_share holds where no other group is carried */
    struct span fresh_share; /* of excess fructose, against the allowance for fresh produce */
    double fresh_bound;      /* bound of excess fructose against it */
    struct span sitting;     /* g that count towards the total of one sitting */
    bool sitting_unknown;    /* an unknown amount of them, not a trace */
};

/* the limits of a phase, each read when first needed */
struct limit_desk {
    const struct phase *phase;
    const struct phase *published; /* the phase that tested serves are meant for: the first */
    struct reads *reads;
    const struct figure *limits[GROUPS][CLASSES];
    bool asked[GROUPS][CLASSES];
    const struct figure *fresh;
    bool fresh_asked;
};

/* the loads of a helping; `out` is zeroed */
void load_reckon(const struct helping *h, double divisor, const struct tables *t,
                 struct limit_desk *desk, struct helping_load *out);

/* the content that a load was reckoned from, g per 100 g, or NULL; a sum is made in the arena */
const struct figure *load_content(struct arena *a, const struct helping *h,
                                  const struct helping_load *l, enum group g);

/* a limit in g that can be divided by: a limit of zero makes any load far too much */
double load_limit(const struct figure *limit);

#endif
