/* The keys and digests of all that can be asked of a food. */
#ifndef TABLES_FOOD_ENTRIES_H
#define TABLES_FOOD_ENTRIES_H

#include "tables/foods.h"

/* call once a food is whole; keys are kept in the arena */
void food_entries_build(struct arena *a, struct food *f);
/* the digest of one content, once it has changed */
void food_entries_renew(struct food *f, enum group g);

#endif
