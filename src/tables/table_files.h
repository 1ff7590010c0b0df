/* The files of the tables: which folders they lie in, what is in them, by what key. */
#ifndef TABLES_TABLE_FILES_H
#define TABLES_TABLE_FILES_H

#include "base/failure.h"
#include "read/yaml_tree.h"
#include "tables/table_image.h"

/* where tables are read from, later layers override entry by entry */
struct table_layers {
    const char
        *folders[4]; /* each holds words.yaml, measures.yaml, foods/, limits.yaml, cooking.yaml,
                        cautions.yaml, site.yaml, sources.yaml, swaps.yaml, as far as it has them */
    size_t count;
    const char *site;  /* the content's own site.yaml, over all others; NULL: none is looked for */
    bool passing;      /* a layer will not be asked for again: no image of it is kept */
    const char *foods; /* one more file of foods, over all others; NULL: none */
};

enum table_kind {
    TABLE_WORDS,
    TABLE_MEASURES,
    TABLE_LIMITS,
    TABLE_COOKING,
    TABLE_CAUTIONS,
    TABLE_SITE,
    TABLE_SOURCES,
    TABLE_SWAPS,
    TABLE_SERVES,
    TABLE_FOODS
};

/* What is kept together: the foods, with the measures that they are measured by, are most of the
 * tables' bytes and seldom change; the rules change often and are soon read. */
enum table_part { PART_FOODS, PART_RULES, TABLE_PARTS };

struct table_file {
    const char *path; /* as shown in notices */
    enum table_kind kind;
    struct slice bytes;
    const struct yaml_node *root; /* once it is read; NULL: it cannot be */
};

struct table_files {
    struct table_file *items; /* layer by layer, foods by name */
    size_t count, room;
    size_t bytes; /* of those read */
};

/* lists all files of the layers; false when a folder that is there cannot be read */
bool table_files_list(struct arena *a, const struct table_layers *layers, struct table_files *out,
                      struct failure *f);

enum table_part table_part_of(enum table_kind kind);

/* for each part, the digest of this program and of all files that it is made from, with their
 * paths; false when one cannot be read, and so nothing can be cached */
bool table_files_key(const struct table_files *files, struct image_key keys[TABLE_PARTS]);

/* the bytes of all files of a part; false when one cannot be read */
bool table_files_read(struct arena *a, struct table_files *files, enum table_part part,
                      struct failure *f);

/* so many bytes of an open file; NULL when it has fewer or cannot be read */
char *table_file_bytes(struct arena *a, int fd, size_t length);

#endif
