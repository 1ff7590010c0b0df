/* The measures table read row by row, and each region's units laid out from it. */
#ifndef TABLES_MEASURE_ROWS_H
#define TABLES_MEASURE_ROWS_H

#include "tables/measures.h"

enum { UNIT_BYTES_MOST = 48 };

/* what the spellings that begin with one word mean, region by region */
struct first_word {
    uint64_t digests[REGIONS_MOST];
};

/* Words as spellings are kept: without dots, with single spaces; in lower case when asked. 0 when
 * they are too long to be a unit. */
size_t measure_words(struct slice words, bool lower, char out[UNIT_BYTES_MOST]);
struct slice measure_first_word(struct slice words);
const char *measure_fill_word(enum fill fill);

/* one layer of the table, over those before it */
void measure_rows_take(struct arena *a, const struct yaml_node *root, struct notices *notices,
                       struct measures *out);
/* units, spellings and digests of all regions */
void measure_rows_lay(struct arena *a, struct measures *m);

#endif
