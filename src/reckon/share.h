/* One limit held against one way to make the dish: load / limit, with its spread, the chance of
 * being over, and what contents that nobody knows could change. */
#ifndef RECKON_SHARE_H
#define RECKON_SHARE_H

#include "reckon/share_spread.h"

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
    double memory;              /* part of mid by figures from memory or practice, 0 to 1 */
    const struct load *chief;   /* what brings most of it; NULL: nothing brings any */
    double chief_part;          /* its part of mid */
    struct lack lack;           /* the one that adds most */
    enum standing standing;
    enum standing larger_standing; /* when the dish makes the most portions that it says */
};

/* what a case comes to at the very most, whatever is chosen, with all that is absent at its most:
 * up to 1 nothing can be over */
double share_most(const struct shares *s, const struct limit_case *c);

/* All but the spread and the chance, which is left at nothing; mid is the sum of the middles. True
 * where the moments alone decide how it stands, by the inequality of Cantelli (one-sided
 * Chebyshev), which holds for any distribution: with mean m, variance v and a limit a > m, the
 * chance of being over is at most v / (v + (a - m) ^ 2). ways: by ingredient, a number into its
 * row's ways. */
bool share_outline(const struct shares *s, const struct limit_case *c, const uint8_t *ways,
                   struct share *out);
/* the same whole; fixed: what no choice touches (share_spread_fixed), or NULL */
void share_reckon(const struct shares *s, const struct limit_case *c, const uint8_t *ways,
                  const struct share_sums *fixed, struct share *out);

/* the chances and standings that sums make; the rest of it stays */
void share_stand(const struct shares *s, const struct share_sums *sums, struct share *out);

/* what a case over the portion stays below in every way to settle the choices, but for a chance of
 * `beyond`, absent contents at their most; where no entry stands in a choice and in another line */
double share_greatest(struct arena *a, const struct shares *s, const struct limit_case *c,
                      double beyond);

#endif
