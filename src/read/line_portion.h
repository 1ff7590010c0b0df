/* Amounts that a line gives for one eater: "per serving: 1 tbsp yoghurt", "1 egg each". */
#ifndef READ_LINE_PORTION_H
#define READ_LINE_PORTION_H

#include "read/line_food.h"

/* takes the words out of the reader's clean line; false when it has none */
bool line_portion_take(struct food_reader *r);

/* takes "per person" with the signs about it, where it begins before a byte of the clean line */
bool line_portion_take_phrase(struct food_reader *r, size_t end);

#endif
