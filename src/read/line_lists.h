/* Lists of which the last has the noun for all: "coconut, soy or Greek yoghurt", "1 red and 1
 * yellow pepper", "sunflower or other neutral oil". Each is given the noun before the line is read.
 */
#ifndef READ_LINE_LISTS_H
#define READ_LINE_LISTS_H

#include "read/line_food.h"

/* writes "and" for "mixed with" before an amount, and the shared noun behind each item of the
 * reader's clean line that stands without it */
void line_spell_out(struct food_reader *r);

#endif
