/* The keys and digests of all that can be asked of a food. */
#ifndef TABLES_FOOD_ENTRIES_H
#define TABLES_FOOD_ENTRIES_H

#include "tables/foods.h"

/* call once a food is whole; keys are kept in the arena */
void food_entries_build(struct arena *a, struct food *f);

#endif
