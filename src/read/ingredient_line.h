/* One ingredient line taken apart: amounts, food words, what is done to it, optional, alternatives,
 * extras. The grammar alone: grams are reckon/mass, foods are tables/foods. */
#ifndef READ_INGREDIENT_LINE_H
#define READ_INGREDIENT_LINE_H

#include "read/written_line.h"

enum { LINE_BYTES_MOST = 2000 }; /* a longer line is no ingredient */

/* reads a plain line; always fills out (what could not be read is in the notices) */
void ingredient_line_read(struct arena *a, struct slice text, const struct yaml_node *node,
                          const struct lexicon *lexicon, struct notices *notices,
                          struct ingredient_line *out);

#endif
