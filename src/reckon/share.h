/* One limit held against one way to make the dish: load / limit, with its spread, the chance of
 * being over, and what contents that nobody knows could change. */
#ifndef RECKON_SHARE_H
#define RECKON_SHARE_H

#include "reckon/shares.h"

/* a content that nobody knows, or an amount that is not given */
struct lack {
    const struct load *load; /* NULL: nothing is lacking */
    enum group group;
    bool amount;   /* no amount is given */
    double adds;   /* share that it could add at most */
    double allows; /* g per 100 g up to which it would change nothing; 0: nothing is enough */
};

struct share {
    double mid;                 /* middle load / limit */
    struct distribution spread; /* of the share; exact at mid where it is too small to matter */
    double load, limit;         /* g; the limit of the chief's class */
    double chance, most_chance; /* of being over: absent contents at nothing, and at their most */
    bool fresh;                 /* the allowance for fresh produce is used */
    double shared; /* what it is below with all but half the chance that makes a portion close,
                      absent contents at their most */
    double memory; /* part of mid by figures from memory or practice, 0 to 1 */
    const struct load *chief; /* what brings most of it; NULL: nothing brings any */
    double chief_part;        /* its part of mid */
    struct lack lack;         /* the one that adds most */
    enum standing standing;
    enum standing larger_standing; /* when the dish makes the most portions that it says */
};

/* what a case comes to at the very most, whatever is chosen, with all that is absent at its most:
 * up to 1 nothing can be over */
double share_most(const struct shares *s, const struct limit_case *c);
/* ways: by ingredient, a number into its row's ways; WAY_NONE: none of them. plain: where
 * share_most is up to 1, by middles alone */
void share_reckon(const struct shares *s, const struct limit_case *c, const uint8_t *ways,
                  bool plain, struct share *out);

/* A share that no way to settle the choices passes (sign 1) or falls below (sign -1), point by
 * point of its spread: of each choice the most of its ways. Of a case over the portion, where no
 * entry stands in more than one of its lines. */
void share_bound(const struct shares *s, const struct limit_case *c, const size_t *rows,
                 size_t count, int sign, struct share *out);

#endif
