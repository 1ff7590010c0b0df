/* An ingredient line written as a mapping. */
#ifndef READ_INGREDIENT_MAP_H
#define READ_INGREDIENT_MAP_H

#include "read/ingredient_line.h"

/* reads the mapping form {food, amount, also, optional, or, stays, after} */
void ingredient_line_read_map(struct arena *a, const struct yaml_node *map,
                              const struct lexicon *lexicon, struct notices *notices,
                              struct ingredient_line *out);

#endif
