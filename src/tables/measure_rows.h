/* The measures table read row by row, and each region's units laid out from it. */
#ifndef TABLES_MEASURE_ROWS_H
#define TABLES_MEASURE_ROWS_H

#include "tables/measures.h"

/* one layer of the table, over those before it */
void measure_rows_take(struct arena *a, const struct yaml_node *root, struct notices *notices,
                       struct measures *out);
/* units, spellings and digests of all regions */
void measure_rows_build(struct arena *a, struct measures *m);

#endif
