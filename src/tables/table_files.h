/* The files of the tables: which folders they lie in, what is in them, where their cache is. */
#ifndef TABLES_TABLE_FILES_H
#define TABLES_TABLE_FILES_H

#include "tables/table_cache.h"
#include "tables/table_image.h"

enum table_kind {
    TABLE_MEASURES,
    TABLE_LIMITS,
    TABLE_CAUTIONS,
    TABLE_SITE,
    TABLE_SOURCES,
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

/* the path of the cache of a part of these layers; NULL when there is no folder for it. `folder` as
 * in tables_load. */
const char *table_files_cache(struct arena *a, const struct table_layers *layers,
                              const char *folder, enum table_part part);

/* a whole file; NULL when it is not there or cannot be read (errno tells) */
char *table_file_read(struct arena *a, const char *path, size_t *length);

/* writes by a temporary file and rename; what goes wrong is let be: a cache is no output */
void table_file_write(struct arena *a, const char *path, struct slice bytes);

#endif
