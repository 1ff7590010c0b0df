/* One search for a food by a cook's words: which of them name it, which do not matter for it. */
#ifndef TABLES_FOOD_SEARCH_H
#define TABLES_FOOD_SEARCH_H

#include "tables/food_query.h"

/* true when a food was found */
bool food_search(const struct food_query *q, struct food_match *out);

/* the food that has these very words for a name, in this order, with a comma where one is asked;
 * out may be NULL */
bool food_search_exactly(const struct food_query *q, bool comma, struct food_match *out);

/* whether cooking changes much what a measure of the food holds: grains and pulses take up water,
 * leaves fall together */
bool food_swells(const struct food *f, enum measured_by by);

#endif
