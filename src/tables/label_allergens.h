/* The allergens and diets of a food by its label: by the ingredients, by words in capitals, by what
 * it says that it contains and may contain. */
#ifndef TABLES_LABEL_ALLERGENS_H
#define TABLES_LABEL_ALLERGENS_H

#include "tables/label_work.h"

/* call when the ingredients are looked up */
void label_allergens_settle(const struct label_work *w);

#endif
