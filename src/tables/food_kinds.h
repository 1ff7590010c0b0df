/* What a step may call a kind of food: "the vegetables", "the cheese", "the bird". Rows of
 * cooking.yaml. */
#ifndef TABLES_FOOD_KINDS_H
#define TABLES_FOOD_KINDS_H

#include "read/words.h"
#include "tables/foods.h"

struct food_kind {
    const char *id;
    const char **words; /* what a step says; NULL-terminated, as all lists here */
    int food_class;     /* of the foods; -1: any */
    const char **tags;  /* that the foods carry; NULL: any */
    const char **line;  /* phrases in the ingredient's line; NULL: any */
};

struct food_kinds {
    struct food_kind *items;
    size_t count, room;
    uint64_t digest;
};

/* takes a mapping of kinds in, entry by entry over what was there */
void food_kinds_load(struct arena *a, const struct yaml_node *map, struct notices *notices,
                     struct food_kinds *out);
/* whether a food, or the words of its line, are of the kind by any of what the row says */
bool food_kind_has(const struct food_kind *k, const struct food *f, const struct words *line);

#endif
