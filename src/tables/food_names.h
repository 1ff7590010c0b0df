/* The names of all foods, laid out to be found; the questions asked of them, by their keys. Finding
 * itself is larder_find, in foods.h. */
#ifndef TABLES_FOOD_NAMES_H
#define TABLES_FOOD_NAMES_H

#include "tables/larder.h"

/* the digest of the answer to a question "find:..." or "names:..." */
uint64_t food_names_ask(const struct larder *l, struct arena *scratch, struct slice key);

#endif
