/* Numbers for the entries of the tables, so that whoever keeps a set of them needs a bit for each
 * and no hash. */
#ifndef TABLES_TABLE_NUMBERS_H
#define TABLES_TABLE_NUMBERS_H

#include "tables/table_cache.h"

/* Numbers the entries of one part; call once, when it is built. The two parts' numbers are apart;
 * what finds no number there has none, and is known by its key. */
void table_numbers_foods(struct tables *t);
void table_numbers_rules(struct tables *t);

#endif
