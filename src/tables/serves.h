/* A writer's own serves: the most that one portion may hold of a food, from whoever advises the
 * writer. None is shipped. Rows are read here; serve_settle.h finds their foods and grams. */
#ifndef TABLES_SERVES_H
#define TABLES_SERVES_H

#include "base/list.h"
#include "tables/figure.h"

/* a row as it is written */
struct serve_row {
    struct slice food, form, phase; /* empty: none is said */
    struct slice amount;            /* "40 g", "2 tbsp", "10 pieces", "no limit" */
    const char *source, *changed;   /* NULL: none is said */
    const char *path;
    struct place place;
};

struct serves {
    LIST_OF(struct serve_row) rows; /* in the order of the layers */
};

/* takes in one file: `blueberry: 40 g`, `pear: {canned: 60 g}`, or a list of rows with their keys,
 * as serves_from_csv makes it; at the top or under `serves:` */
void serves_load(struct arena *a, const char *path, const struct yaml_node *root,
                 struct notices *notices, struct serves *out);
/* a table of comma-separated values, with its heads in the first line (food, form, grams, phase,
 * source, changed), as a YAML list that has each row in the line where it stood */
struct slice serves_from_csv(struct arena *a, struct slice bytes);

#endif
