/* All tables together: found, read (from a checked cache where their bytes are unchanged), built,
 * and asked again by the keys that a ledger kept. The cache has two parts, each under the digest of
 * the files that it is made from: the foods with the measures, which are nearly all of the bytes,
 * and the rules (limits, cautions, site, sources). Whoever changes a limit waits for 40 KB of YAML,
 * not for a megabyte; with nothing changed, two images are read and their pointers moved. */
#ifndef TABLES_TABLE_CACHE_H
#define TABLES_TABLE_CACHE_H

#include "base/failure.h"
#include "tables/cautions.h"
#include "tables/cooking.h"
#include "tables/serves.h"
#include "tables/site.h"
#include "tables/sources.h"
#include "tables/swaps.h"
#include "tables/table_files.h"
#include "tables/words.h"

struct table_notice { /* a notice with the file it is about */
    const char *path;
    struct notice notice;
};

struct tables {
    struct word_lists *words;
    struct measures measures;
    struct larder *larder;
    struct limits limits;
    struct cooking cooking;
    struct cautions cautions;
    struct site site;
    struct sources sources;
    struct swaps swaps;
    struct serves serves;
    struct table_notice *notices; /* what is wrong in the tables' files */
    size_t notice_count;
    uint64_t digest; /* of all values */
};

/* the installed tables (beside the program, or DARIOLE_TABLES), then CONTENT/tables when given */
bool tables_layers(struct arena *a, const char *content, struct table_layers *out,
                   struct failure *f);

/* loads; false only when the machine fails (or no tables are there at all). folder: where images
 * are kept, NULL for the user's cache folder, "" for none. The tables live in the arena and are the
 * caller's own. */
bool tables_load(struct arena *a, const struct table_layers *layers, const char *folder,
                 struct tables *out, struct failure *f);

#endif
