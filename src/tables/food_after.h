/* What stands behind the comma of a food, and in its brackets: how it was prepared, which kind of
 * the food is meant, or a remark. A word that names a kind is used, or the food is not known; it is
 * never left out. */
#ifndef TABLES_FOOD_AFTER_H
#define TABLES_FOOD_AFTER_H

#include "tables/food_said.h"

enum after_said {
    AFTER_NOTHING, /* nothing that makes it another food */
    AFTER_FOUND,   /* the food that the words make of it */
    AFTER_ELSE     /* another food, and not one that is known */
};

/* finds the food that words behind the comma make of the one that the question names */
enum after_said food_after_search(const struct food_query *q, const struct sought *sought,
                                  const struct after *after, struct food_match *match);

#endif
