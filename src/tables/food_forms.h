/* The forms of a food as a file of foods/ writes them: densities, pieces, edible shares. */
#ifndef TABLES_FOOD_FORMS_H
#define TABLES_FOOD_FORMS_H

#include "tables/food_page.h"

/* all forms of the mapping; what is wrong is said, and the row marked */
void food_forms_take(struct page *page, const struct yaml_node *map, struct food *f);

#endif
