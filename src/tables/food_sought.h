/* The food that a line's words mean, with what stands behind the comma, in a tin or as a part. */
#ifndef TABLES_FOOD_SOUGHT_H
#define TABLES_FOOD_SOUGHT_H

#include "tables/food_after.h"

/* the question loses the words that only say that it was tinned */
bool food_sought_find(struct food_query *q, const struct sought *sought, const struct after *after,
                      struct food_match *match);

#endif
