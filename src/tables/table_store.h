/* The images of the tables that are kept for other runs: in which folder, under which name, which
 * of them may be trusted, and how many. A store is no output: what goes wrong with it is let be. */
#ifndef TABLES_TABLE_STORE_H
#define TABLES_TABLE_STORE_H

#include "tables/table_files.h"

/* so many images are kept; those that were not used longest go first */
enum { STORE_IMAGES_MOST = 12 };

/* the user's own: $XDG_CACHE_HOME/dariole or $HOME/.cache/dariole; NULL when neither is said */
const char *table_store_user(struct arena *a);

/* the same, made where it is not there and open; -1: nothing can be kept. The caller closes it. */
int table_store_open(struct arena *a);

/* The bytes that were kept under the key, not yet checked; NULL when there are none, or when they
 * may be another's: the file must be this user's, and no one else's to write to. */
char *table_store_read(struct arena *a, const char *folder, enum table_part part,
                       struct image_key key, size_t *length);

/* keeps bytes, whole or not at all; makes the folder where it is not there */
void table_store_write(struct arena *a, const char *folder, enum table_part part,
                       struct image_key key, struct slice bytes);

#endif
