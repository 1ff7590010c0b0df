/* Points and commas in numbers, which languages use the other way round: "1.000 g" is a gram or a
 * kilogram. */
#ifndef READ_LINE_DECIMALS_H
#define READ_LINE_DECIMALS_H

#include "read/line_food.h"

/* writes the numbers of the reader's clean line as English does, where the lexicon's language has a
 * decimal comma; true when one may be read both ways, which is told: then no amount is to be
 * believed */
bool line_decimals_resolve(struct food_reader *r);

#endif
