/* What 100 g of a food hold of a group at the least and at the most, by its figures, by its other
 * figures where one is absent, and by its kin. */
#ifndef TABLES_FOOD_MOST_H
#define TABLES_FOOD_MOST_H

#include "tables/foods.h"

/* g per 100 g that the food's own other figures leave to a group: sugars hold lactose and fructose;
 * what carbohydrate is there beside the sugars holds the rest. NAN: they say nothing. */
double food_own_bound(const struct food *f, enum group g, struct reads *reads);

struct holding {
    struct span known; /* g per 100 g by figures; what is absent is not in it */
    double most;       /* g per 100 g of all that may be there */
};

/* a sum's is that of its parts, or the food's own where that is more */
struct holding food_holds(const struct larder *l, const struct food *f, enum group g);

#endif
