/* Limits by phase, group and food class; the sitting total; the thresholds of standing. */
#ifndef TABLES_LIMITS_H
#define TABLES_LIMITS_H

#include "tables/foods.h"

enum { PHASES_MOST = 8 };

struct limit {
    struct entry entry;              /* "limit:strict/fructan" */
    struct figure per_portion;       /* g of the carbohydrate in a portion */
    struct figure by_class[CLASSES]; /* where the source says so; else per_portion */
    struct figure fresh_produce;     /* larger allowance, where no other group is carried */
    bool lifted;                     /* the reader does not limit this group */
};

struct phase {
    const char *id, *name; /* strict, "elimination" */
    struct entry entry;
    struct limit groups[GROUPS];
    struct figure sitting; /* g of all groups but lactose at one sitting */
    struct entry sitting_entry;
    double multiple[GROUPS]; /* reader's own multiples of another phase's limits, 0 when none;
                                already applied */
    double sitting_multiple;
    const char *of; /* the phase that is multiplied */
};

struct limits {
    struct phase phases[PHASES_MOST];
    size_t phase_count;
    double close_at; /* share from which a portion stands `close`: 0.80 */
    struct figure close_figure;
};

/* the limit in g of a group for a food's class, or NULL where the phase has none or lifts it; noted
 */
static inline const struct figure *
limit_for(const struct phase *p, enum group g, enum food_class c, struct reads *reads)
{
    const struct limit *l = &p->groups[g];
    reads_note(reads, &l->entry);
    if (l->lifted)
        return NULL;
    if (figure_known(&l->by_class[c]))
        return &l->by_class[c];
    return figure_known(&l->per_portion) ? &l->per_portion : NULL;
}
/* the allowance for fresh produce that carries no other group, or NULL */
const struct figure *limit_fresh(const struct phase *p, enum group g, struct reads *reads);
const struct figure *limit_sitting(const struct phase *p, struct reads *reads);
/* whether the phase limits the group at all; noted */
bool limit_holds(const struct phase *p, enum group g, struct reads *reads);
int limits_phase(const struct limits *l, struct slice id);

/* takes in one layer of the table, over those before it, group by group; `out` is empty at first */
void limits_load(struct arena *a, const struct yaml_node *root, struct notices *notices,
                 struct limits *out);
/* works out the multiples and digests; call once, after the last layer */
void limits_close(struct arena *a, struct limits *l);

/* the digest of a key of this table ("limit:strict/fructan", "limit:strict/sitting",
 * "phase:strict"); 0: there is none */
uint64_t limits_ask(const struct limits *l, struct slice key);

#endif
