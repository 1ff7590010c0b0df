/* The larder's names laid out for the search: by their stems, and by the stems joined. */
#ifndef TABLES_FOOD_INDEX_H
#define TABLES_FOOD_INDEX_H

#include "tables/larder_rows.h"

/* indexes every name, and splits what chooses each form; call once, when all foods are in */
void food_index_build(struct larder *l);

#endif
