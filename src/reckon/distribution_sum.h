/* Sums and products of independent distributions, by numerical integration: one of the two, whole,
 * is moved or scaled by each of some values of the other. */
#ifndef RECKON_DISTRIBUTION_SUM_H
#define RECKON_DISTRIBUTION_SUM_H

#include "reckon/distribution.h"

/* of independent ones; a sum never lies below either part */
struct distribution distribution_sum(const struct distribution *a, const struct distribution *b);
struct distribution distribution_product(const struct distribution *a,
                                         const struct distribution *b);
/* n independent draws of one thing together, as the pieces of "4 tomatoes"; of a part of a piece,
 * that part of one draw */
struct distribution distribution_draws(const struct distribution *d, double n);

#endif
