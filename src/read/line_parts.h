/* Juice and zest of a fruit that was named before: "zest of 2 oranges, juice of 1", "1 lemon,
 * zested, plus 2 tbsp juice". The fruit is written out behind them before the line is read. */
#ifndef READ_LINE_PARTS_H
#define READ_LINE_PARTS_H

#include "read/line_food.h"

void line_parts_spell_out(struct food_reader *r);

#endif
