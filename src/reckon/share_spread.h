/* The spread of a share: what each food of a limit brings, summed as independent ones. Contents
 * that nobody knows are summed beside it. */
#ifndef RECKON_SHARE_SPREAD_H
#define RECKON_SHARE_SPREAD_H

#include "reckon/shares.h"

/* parts of a limit */
struct share_sums {
    struct distribution known, absent;    /* absent: at its most */
    struct moments pooled, pooled_absent; /* what is small of both, and not in them yet */
    const bool *entries; /* by entry of the sheet: whether it is in these sums; NULL: none is */
};

/* one way to settle what a limit hangs on */
struct share_way {
    const uint8_t *ways;            /* by ingredient, a number into its row's ways */
    bool fresh;                     /* the allowance for fresh produce holds */
    const struct share_sums *fixed; /* what is alike in all ways, or NULL */
};

/* of a limit over the portion, the entries whose lines no choice touches */
void share_spread_fixed(struct arena *a, const struct shares *s, const struct limit_case *c,
                        const uint8_t *ways, struct share_sums *out);
/* all that a way brings, with nothing left in the pools */
void share_spread(const struct shares *s, const struct limit_case *c, const struct share_way *way,
                  struct share_sums *out);

/* What one ingredient brings by itself, where the way of no other is set: small parts are in the
 * pools. Of a limit over the portion, where no other line has its entries. */
void share_spread_way(const struct shares *s, const struct limit_case *c, const uint8_t *ways,
                      size_t row, struct share_sums *out);
/* Of a limit over the portion, sums that no way to settle the choices passes, point by point of
 * their spread: of each choice the most of its ways. Where no entry stands in a choice and in
 * another line. */
void share_spread_most(struct arena *a, const struct shares *s, const struct limit_case *c,
                       struct share_sums *out);

/* takes what is in the pools into the sums */
void share_sums_empty(struct share_sums *sums);
void share_sums_add(struct share_sums *to, const struct share_sums *more);
/* point by point the larger (sign 1) or the smaller (-1) of both; the pools are empty */
void share_sums_envelope(struct share_sums *of, const struct share_sums *other, int sign);

/* whether so many g of an entry are a pinch of a dried herb or spice: no ground for not knowing */
bool share_pinch(const struct shares *s, size_t entry, double grams);
/* what goes in without an amount adds at most, as a share of the limit; 0: nothing */
double share_extra(const struct shares *s, const struct limit_case *c, size_t entry,
                   const struct entry_amount *amount, double limit);
/* a food whose serve has no limit counts over the portion for no more than this share */
double share_unlimited(void);

#endif
