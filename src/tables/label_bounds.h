/* What a label lets 100 g of its food hold of each group, at the least and at the most. */
#ifndef TABLES_LABEL_BOUNDS_H
#define TABLES_LABEL_BOUNDS_H

#include "tables/label_work.h"

/* Sets contents and bounds of the food, and how much of each ingredient there can be, by
 * label_mix.h; call when the ingredients are looked up and the allergens known. */
void label_bounds_settle(const struct label_work *w);

#endif
