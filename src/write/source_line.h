/* What the list of sources says of a figure: of which food it is, what it tells, and where it comes
 * from. */
#ifndef WRITE_SOURCE_LINE_H
#define WRITE_SOURCE_LINE_H

#include "tables/larder_rows.h"
#include "tables/table_cache.h"

/* what a figure tells of a food: one of these, or a set of groups as bits 1 << enum group */
enum told {
    TOLD_ALL_GROUPS = (1 << GROUPS) - 1,
    TOLD_DENSITY,
    TOLD_PIECE,
    TOLD_EDIBLE,
    TOLD_SERVE,
    TOLD_NUTRIENTS,
    TOLD_DIETS,
    TOLD_SITTING
};

struct source_line {
    size_t source;     /* its number in the table of sources; their count: free text, of none */
    struct slice who;  /* HTML */
    struct slice what; /* HTML: what is told, and the place in the source; foods may share it */
    uint64_t digest;   /* of source and what */
};

/* the lines of what a food holds, several groups of one source in one, of its serve, and of its
 * allergens and diets */
struct food_lines {
    const struct source_line *items[GROUPS + 2];
    size_t count;
};

/* the line of a known figure of the tables; `who`, from the tables too or a constant, is whose it
 * is */
const struct source_line *source_line_of(struct arena *a, const struct tables *t,
                                         const struct figure *f, const char *who, unsigned told);

/* the lines of a food's contents, serve, allergens and diets */
const struct food_lines *source_lines_of_food(struct arena *a, const struct tables *t,
                                              const struct food *food);

#endif
