/* A figure: a span with its source and basis, the smallest thing a table holds. */
#ifndef TABLES_FIGURE_H
#define TABLES_FIGURE_H

#include "base/reads.h"
#include "base/span.h"
#include "read/yaml_tree.h"

enum basis {
    BASIS_NONE, /* there is no figure */
    BASIS_MEASURED,
    BASIS_PUBLISHED,
    BASIS_CALCULATED,
    BASIS_PRACTICE,
    BASIS_MEMORY
};

struct figure {
    struct span span;
    const char *source; /* as in the table: "sr28 09040 1 cup, mashed = 225 g" */
    enum basis basis;   /* BASIS_NONE: not known */
};

/* reads {low, mid, high, source, basis}; a source and a basis are required: notices else */
bool figure_read(struct arena *a, const struct yaml_node *node, struct notices *notices,
                 struct figure *out);
bool figure_known(const struct figure *f);
const char *basis_word(enum basis b);
uint64_t figure_digest(const struct figure *f, uint64_t start);

#endif
