/* What 100 g of a food hold of each group, as it is reckoned with: its figures, the sums of them,
 * and what a content that has no figure is at most. */
#ifndef RECKON_COMPOSITION_H
#define RECKON_COMPOSITION_H

#include "reckon/distribution_sum.h"
#include "tables/food_kin.h"
#include "tables/table_cache.h"

/* what a content rests on, the better first */
enum evidence {
    EVIDENCE_FIGURE, /* a figure of its own, or of its parts */
    EVIDENCE_OWN,    /* absent; other figures of the food bound it */
    EVIDENCE_KIN,    /* absent; estimated from its kin */
    EVIDENCE_ABSENT  /* absent, and nothing bounds it but that it is part of the food */
};

struct moments {
    double mean, variance;
};

/* how far the 5th and the 95th percentile lie from the middle */
struct widths {
    double below, above;
};

struct content {
    enum evidence evidence;
    const struct figure *figure; /* NULL: absent, or the sum of two parts */
    double mid;                  /* g per 100 g; of what is absent 0 */
    double memory;               /* the part of it by figures from memory or practice, alike */
    double bound;                /* g per 100 g that what is absent adds at most; 0: nothing is */
    const struct figure *over;   /* the published bound that gives it; NULL: something else does */
    const struct kin *kin;       /* the estimate; NULL: none */
    struct widths widths;        /* of what is known, g per 100 g */
    double top;                  /* g per 100 g that what is known hardly passes */
    double open; /* g per 100 g that what is absent hardly passes, by estimate or bound */
    struct moments known, absent; /* of what is known, and of the estimate of what is not */
    struct distribution spread;   /* g per 100 g of what is known. Of a sum of two parts, this and
                                       the next are made when they are asked for */
    struct distribution estimate; /* of what is absent, for sums over many foods: not each of them
                                     is at its bound at once */
};

struct composition {
    struct content groups[GROUPS];
    unsigned known; /* bits 1 << group: some of it is known to be there */
    unsigned open;  /* ... something may be there that has no figure */
};

/* food NULL, not in the larder: nothing is known */
void composition_reckon(const struct food *food, const struct tables *t, struct reads *reads,
                        struct composition *out);

struct widths widths_of(const struct distribution *d, double mid);
/* of a sum of independent ones */
struct widths widths_beside(struct widths a, struct widths b);

struct moments moments_of(const struct distribution *d);
struct moments moments_add(struct moments a, struct moments b);
/* of a product of independent ones */
struct moments moments_times(struct moments a, struct moments b);

/* the spread of what is known of a group, and of what is not */
struct distribution composition_spread(const struct composition *c, enum group g);
struct distribution composition_estimate(const struct composition *c, enum group g);

/* "bounded by its own figures": for readers of a worksheet */
const char *evidence_words(enum evidence e);

#endif
