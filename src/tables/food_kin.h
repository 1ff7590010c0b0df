/* What the kin of a food are found to hold: those of its botanical family and part of the plant, or
 * else of its class. A food without a figure of its own is estimated from them. */
#ifndef TABLES_FOOD_KIN_H
#define TABLES_FOOD_KIN_H

#include "tables/foods.h"

/* with fewer measured foods than these, kin say nothing */
enum { KIN_LEAST = 10 };

/* a log-normal fitted to the foods that have a figure, what was looked for and not found counted in
 */
struct kin {
    struct entry entry;        /* "kin:Rosaceae/fruit/sorbitol", "kin:vegetable/sorbitol" */
    const char *family, *part; /* NULL: of the class */
    enum food_class food_class;
    enum group group;
    size_t foods;         /* that it is fitted to */
    double median, sigma; /* g per 100 g, and the standard deviation of its logarithm */
    double bound;         /* g per 100 g: the 97.5th percentile of those that hold any */
};

/* what a food's kin hold of a group; NULL where too few of them have a figure. Noted. */
const struct kin *food_kin(const struct larder *l, const struct food *f, enum group g,
                           struct reads *reads);
/* the same as if the food itself had no figure: to test the estimate by. Notes nothing. */
struct kin food_kin_without(const struct larder *l, struct arena *a, const struct food *f,
                            enum group g);

/* fits all kin; once, by larder_close */
void food_kin_fit(struct larder *l);
/* the digest of "kin:..."; 0: there is none */
uint64_t food_kin_ask(const struct larder *l, struct slice key);

#endif
