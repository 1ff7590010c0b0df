/* What cooks write short: "w/", "e.g.", "2-ish", "..." and the like, by the table of words. */
#ifndef READ_LINE_SHORTHAND_H
#define READ_LINE_SHORTHAND_H

#include "read/line_food.h"

/* writes it out in the reader's clean line */
void line_shorthand_spell_out(struct food_reader *r);

#endif
