/* What 100 g of a food hold, as a file of foods/ writes it. */
#ifndef TABLES_FOOD_CONTENTS_H
#define TABLES_FOOD_CONTENTS_H

#include "tables/food_page.h"

/* carbohydrates, into those groups that have no figure yet */
void food_contents_take(struct page *page, const struct yaml_node *map, struct food *f);
/* what a content is at most, where more cannot be said */
void food_bounds_take(struct page *page, const struct yaml_node *map, struct food *f);
/* where its allergens and diets come from */
void food_grounds_take(struct page *page, const struct yaml_node *map, struct food *f);
void food_nutrients_take(struct page *page, const struct yaml_node *map, struct food *f);

#endif
