/* A table of plain text: columns as wide as their widest cell, in characters. */
#ifndef WRITE_GRID_H
#define WRITE_GRID_H

#include "base/text.h"

enum { GRID_COLUMNS_MOST = 12 };

struct grid {
    struct arena *arena;
    struct slice *cells; /* row by row */
    size_t columns, count, room;
    bool right[GRID_COLUMNS_MOST]; /* numbers stand to the right */
};

/* columns to the right are named by their numbers in `right`: "237"; ':' is 10 */
struct grid grid_new(struct arena *a, size_t columns, const char *right);
void grid_add(struct grid *g, struct slice cell);
/* the first row is the heading; a line is drawn under it */
void grid_write(struct text *t, const struct grid *g);

#endif
