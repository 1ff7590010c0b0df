/* Labels brought to contents: each ingredient is looked up, and the food gets its allergens, its
 * diets, its nutrients, and of each group what its list lets it hold. */
#ifndef TABLES_LABEL_SETTLE_H
#define TABLES_LABEL_SETTLE_H

#include "tables/larder.h"
#include "tables/limits.h"

/* takes the notices of one label with the path of its table */
typedef void label_told(void *ctx, const char *path, struct notices *notices);

/* settles the labels of all foods, once they can be looked up; in the order of the tables, so that
 * a label may name what another one before it is of */
void label_settle(struct larder *l, label_told *told, void *ctx);
/* serves that were tested, once the phases are known */
void label_settle_serves(struct arena *a, const struct larder *l, const struct limits *limits,
                         label_told *told, void *ctx);

#endif
