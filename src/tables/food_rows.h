/* Foods as a file of foods/ writes them, read row by row. */
#ifndef TABLES_FOOD_ROWS_H
#define TABLES_FOOD_ROWS_H

#include "tables/larder_rows.h"

/* takes in the foods of one file; rows that are wrong are left out with a notice */
void food_rows_take(struct larder *l, const struct yaml_node *root, struct notices *notices);

#endif
