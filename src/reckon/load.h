/* What one food of a dish brings into one portion, group by group. Contents and limits are read
 * here. */
#ifndef RECKON_LOAD_H
#define RECKON_LOAD_H

#include "reckon/dish.h"

/* the groups, and all that count towards the total of one sitting */
enum { SITTING = GROUPS, COLUMNS = GROUPS + 1 };

/* what is brought of one group, or to the total of a sitting */
struct brought {
    struct span load;  /* g; by a tested serve: share x limit */
    struct span share; /* against the limit of its class; of the sitting: sheet.c */
    double bound;      /* share that what is not known can add at most: INFINITY: no bound */
    const struct figure *limit; /* NULL: not read, or the phase has none; of several together */
};

/* loads of one helping in one portion */
struct helping_load {
    struct span grams; /* edible g in one portion */
    uint8_t told;      /* bits 1 << group: the content is known; see load_content */
    uint8_t composed;  /* ... its composition brings something, or nobody knows */
    uint16_t touched;  /* bits 1 << column: of all others load, share and bound are 0 */
    struct brought columns[COLUMNS];
    double open[GROUPS]; /* g that what is not known can add at most */
    bool known[GROUPS];
    bool trace[GROUPS];      /* not known, but cannot pass the limit by itself */
    bool serve_used;         /* the share of the serve's group is grams / tested serve */
    bool serve_disagrees;    /* serve and composition exclude each other; the stricter is used */
    struct span serve_share; /* share of the serve's group that the composition gives one serve */
    bool fresh;              /* fresh produce: fresh_share holds where no other group is carried */
    struct span fresh_share; /* of excess fructose, against the allowance for fresh produce */
    double fresh_bound;      /* bound of excess fructose against it */
};

/* the groups among the columns that a helping touches, bits 1 << group */
static inline unsigned
load_groups(const struct helping_load *l)
{
    return l->touched & ((1u << GROUPS) - 1);
}

/* where limits are read */
struct limit_scope {
    const struct phase *phase;
    const struct phase *published; /* the phase that tested serves are meant for: the first */
    struct reads *reads;
};

/* the loads of a helping */
void load_reckon(const struct helping *h, double divisor, const struct tables *t,
                 const struct limit_scope *limit_scope, struct helping_load *out);
/* the content that a load was reckoned from, g per 100 g, or NULL; a sum is made in the arena */
const struct figure *load_content(struct arena *a, const struct helping *h,
                                  const struct helping_load *l, enum group g);

/* a limit in g that can be divided by: a limit of zero makes any load far too much */
static inline double
load_limit(const struct figure *limit)
{
    return limit->span.mid > 1e-6 ? limit->span.mid : 1e-6;
}

#endif
