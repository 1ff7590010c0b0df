/* Limits by phase, group and food class; the sitting total; the thresholds of standing. */
#ifndef TABLES_LIMITS_H
#define TABLES_LIMITS_H

#include "tables/foods.h"

enum { PHASES_MOST = 8 };

/* what a limit is for: the serve of one food, or all foods of the portion together */
enum scope { SCOPE_FOOD, SCOPE_PORTION };

struct limit {
    struct entry entry; /* "limit:strict/fructan" */
    enum scope scope;
    struct figure grams;             /* g of the carbohydrate */
    struct figure by_class[CLASSES]; /* where the source says so; else grams. Of one food alone */
    struct figure fresh_produce;     /* larger allowance, of fresh produce that carries no other */
    bool lifted;                     /* the reader does not limit this group */
    double multiple;                 /* of the base phase's limit, already applied; 0: none said */
};

struct phase {
    const char *id, *name; /* strict, "elimination" */
    struct entry entry;
    struct limit groups[GROUPS];
    struct figure sitting; /* g of all groups but lactose at one sitting */
    struct entry sitting_entry;
    double sitting_multiple; /* of the base phase's, already applied; 0: none said */
    const char *base;        /* the phase whose limits hold where this one says none; NULL: none */
};

struct limits {
    struct phase phases[PHASES_MOST];
    size_t phase_count;
    struct figure over_at, close_at; /* the chances of being over a limit above which a portion
                                        stands `over` and `close` */
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
    return figure_known(&l->grams) ? &l->grams : NULL;
}
/* the allowance for fresh produce that carries no other group, or NULL */
const struct figure *limits_fresh(const struct phase *p, enum group g, struct reads *reads);
const struct figure *limits_sitting(const struct phase *p, struct reads *reads);
/* whether the phase limits the group at all; noted */
bool limits_hold(const struct phase *p, enum group g, struct reads *reads);
int limits_phase(const struct limits *l, struct slice id);

/* what a gram of the group counts in the total of a sitting: nothing where it is lifted, 1 / k
 * where its limit is k times another's */
double limits_weight(const struct phase *p, enum group g);

/* takes in one layer of the table, over those before it, group by group; `out` is empty at first */
void limits_load(struct arena *a, const struct yaml_node *root, struct notices *notices,
                 struct limits *out);
/* works out the multiples and digests; call once, after the last layer */
void limits_close(struct arena *a, struct limits *l);

/* the digest of a key of this table ("limit:strict/fructan", "limit:strict/sitting",
 * "phase:strict"); 0: there is none */
uint64_t limits_ask(const struct limits *l, struct slice key);

#endif
