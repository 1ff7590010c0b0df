/* The ingredients of front matter: one list of lines, or a map from part to list. The lines
 * themselves are read by ingredient_line and ingredient_map. */
#ifndef READ_FRONT_INGREDIENTS_H
#define READ_FRONT_INGREDIENTS_H

#include "read/front_value.h"

struct part_lines {
    struct front_value name;        /* empty when the ingredients are one list */
    const struct yaml_node **lines; /* scalars (plain lines) or maps */
    size_t count;
};

/* takes in the value of `ingredients:`; what is no line is told and left out. The parts are in the
 * arena; a part without lines is not among them */
void front_ingredients_read(struct front_reader *r, const struct yaml_node *key,
                            const struct yaml_node *value, struct part_lines **parts,
                            size_t *count);

#endif
