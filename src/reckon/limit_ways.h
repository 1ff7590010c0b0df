/* How a limit over the portion stands in each way to settle its choices: by bounds of many ways at
 * once where these decide, so that few ways are reckoned one by one. */
#ifndef RECKON_LIMIT_WAYS_H
#define RECKON_LIMIT_WAYS_H

#include "reckon/share.h"

/* the choices of a limit: ingredients, and two standings by way of each, the last row changing
 * first */
struct limit_ways {
    const size_t *rows;
    size_t row_count, way_count;
    enum standing *resolved;
    const struct share_sums *fixed; /* share_spread_fixed */
};

/* not reckoned yet */
#define LIMIT_WAYS_OPEN ((enum standing)(STANDING_OVER + 1))

/* whether a choice of a case hangs on an entry that stands in another line as well: its content is
 * one figure, so what a way brings hangs on the others */
bool limit_ways_twice(const struct shares *s, const struct limit_case *c);
/* fills what is open; of a case over the portion without such an entry. Sittings are built. */
void limit_ways_resolve(struct arena *a, const struct shares *s, const struct limit_case *c,
                        struct limit_ways *ways);

#endif
