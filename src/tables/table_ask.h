/* What is asked of all tables together: by the keys that a ledger kept, for the titles of sources,
 * for the words of a line. Comes with tables/table_cache.h. */
#ifndef TABLES_TABLE_ASK_H
#define TABLES_TABLE_ASK_H

#include "base/reads.h"
#include "read/amount.h"

struct tables;

/* the digest that the entry or question `key` of a ledger has in these tables; 0 when absent */
uint64_t tables_ask(const struct tables *t, struct arena *scratch, struct slice key);

/* "sr28 09040 ..." with the source's title spelled out */
const char *tables_source(const struct tables *t, struct arena *a, const char *source);

/* the lexicon of a region for the line reader; ctx lives in the arena */
struct lexicon tables_lexicon(const struct tables *t, struct arena *a, int region,
                              struct reads *reads);

#endif
