/* The table of sources: the titles that readers see for the ids that figures cite. */
#ifndef TABLES_SOURCES_H
#define TABLES_SOURCES_H

#include "base/list.h"
#include "base/map.h"
#include "read/yaml_tree.h"

struct source_row {
    const char *id, *title;
    const char
        *shown; /* in the middle of a text: "Souci et al. 2008"; the title where none is given */
};

struct sources {
    struct source_row *items;
    size_t count, room;
    struct map numbers; /* id -> number + 1 */
};

/* takes in one layer of the table, over those before it, source by source */
void sources_load(struct arena *a, const struct yaml_node *root, struct notices *notices,
                  struct sources *out);

/* the source of an id, or NULL */
const struct source_row *sources_find(const struct sources *s, struct slice id);
/* adds words, with short names where they have the ids of sources: "calculated from ifct2017 B014"
 */
void sources_add_words(const struct sources *s, struct slice words, struct text *out);

#endif
