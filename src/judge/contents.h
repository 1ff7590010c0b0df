/* What the ingredients of a dish break or carry, over every way to make it. */
#ifndef JUDGE_CONTENTS_H
#define JUDGE_CONTENTS_H

#include "reckon/dish.h"

/* how one way to make one ingredient stands to a claim; in order of weight */
enum stands { STANDS_KEEPS, STANDS_UNKNOWN, STANDS_LABEL, STANDS_BREAKS };

struct culprits { /* ingredients that decide, by number */
    size_t *items;
    size_t count, room;
};

/* all ingredients over all variants */
struct contents {
    bool breaks;    /* an ingredient breaks it in every way to make it */
    bool on_choice; /* only in some ways */
    bool label;     /* only unless the label says otherwise */
    bool unknown;   /* a food is not in the larder */
    struct culprits breaking, choosing, labelling, unknowing;
};

/* what any of the foods breaks or carries, for sure or by its label */
struct contents_sum {
    uint32_t diets, allergens; /* bits */
    bool unknown;              /* a food is not in the larder, or an ingredient has none */
};

void contents_sum(const struct dish *d, struct reads *reads, struct contents_sum *out);
void contents_of_diet(struct arena *a, const struct dish *d, enum diet diet, struct reads *reads,
                      struct contents *out);
/* of any of these allergens (bits) */
void contents_of_allergens(struct arena *a, const struct dish *d, uint32_t allergens,
                           struct reads *reads, struct contents *out);
#endif
