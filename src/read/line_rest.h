/* What stands behind the name of a food in a line: preparation, brackets, extras. */
#ifndef READ_LINE_REST_H
#define READ_LINE_REST_H

#include "read/line_food.h"

/* reads what stands behind the name up to the end of the food; where the next food begins, or `end`
 */
size_t line_read_rest(struct food_reader *r, struct written_food *food, size_t at, size_t end,
                      enum joint *joint, struct held_bracket *held);
/* a bracket behind the name or in front of it: amounts, an alternative, or words; where it ends */
size_t line_read_bracket(struct food_reader *r, struct written_food *food, size_t at, size_t end,
                         struct held_bracket *held);

#endif
