/* Names that are near one that is not known: those to suggest, and the one that was misspelt. */
#ifndef TABLES_FOOD_NEAR_H
#define TABLES_FOOD_NEAR_H

#include "tables/food_search.h"

/* names that are near, when none was found; best first */
void food_near(const struct food_query *q, const char *nearest[3]);

/* puts the words of the larder for those of the question that it has not, where each of them is a
 * slip of the pen away from just one and sounds like it; false when one is not */
bool food_near_correct(struct food_query *q);

#endif
