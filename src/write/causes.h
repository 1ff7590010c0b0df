/* The findings of many posts by what would mend most: one line a cause, with how many posts it
 * decides. */
#ifndef WRITE_CAUSES_H
#define WRITE_CAUSES_H

#include "base/list.h"
#include "base/map.h"
#include "compile/outcome.h"

struct cause {
    struct slice words;   /* "no figure for fructan in garam masala" */
    struct slice example; /* of the first post that has it: what to do, or empty */
    const char *path;     /* that post */
    enum level level;
    size_t posts;
};

struct causes {
    struct arena *arena; /* for the whole run */
    LIST_OF(struct cause) items;
    struct map by_words;                        /* words -> number + 1 */
    size_t standing[STANDING_OVER + 1], others; /* posts by how they stand; those without portion */
};

void causes_begin(struct arena *a, struct causes *out);
/* path must live as long as the arena */
void causes_add(struct causes *c, const char *path, const struct outcome *o);
/* those that decide most posts first; as many as `most` */
void causes_write(struct text *t, struct causes *c, size_t most);

#endif
