/* What a packet says, as a file of foods/ writes it under `label`. */
#ifndef TABLES_LABEL_ROWS_H
#define TABLES_LABEL_ROWS_H

#include "tables/food_page.h"

/* the label of a food; its ingredients are looked up by label_settle, when all foods are read */
void label_rows_take(struct page *page, const struct yaml_node *map, struct food_row *row);

#endif
