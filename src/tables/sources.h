/* The table of sources: the titles that readers see for the ids that figures cite. */
#ifndef TABLES_SOURCES_H
#define TABLES_SOURCES_H

#include "base/list.h"
#include "read/yaml_tree.h"

struct source_row {
    const char *id, *title;
};

struct sources {
    struct source_row *items;
    size_t count, room;
};

/* takes in one layer of the table, over those before it, source by source */
void sources_load(struct arena *a, const struct yaml_node *root, struct notices *notices,
                  struct sources *out);

#endif
