/* Two kinds of a food behind its comma or in its bracket, of which either will do: "pasta,
 * gluten-free or regular", "yoghurt (coconut for vegan)", "butter (vegan if needed)". They are
 * written out as alternatives before the line is read, so that no kind is taken for the food. */
#ifndef READ_LINE_EITHER_H
#define READ_LINE_EITHER_H

#include "read/line_food.h"

/* writes the first such piece of the reader's clean line out as "a or b" */
void line_either_spell_out(struct food_reader *r);

/* whether the words say the food as it usually is: "regular", "the normal one" */
bool line_either_is_ordinary(const struct food_reader *r, struct slice words);
/* a name without its words about a diet: "lactose-free yoghurt"; empty: it has none */
struct slice line_either_without_diet(const struct food_reader *r, struct slice name);

/* whether they say in which state it is: "fresh", "dried" */
bool line_either_is_state(const struct food_reader *r, struct slice words);

#endif
