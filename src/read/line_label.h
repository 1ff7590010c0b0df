/* What stands before a line and is not of it: "For the sauce: 1 tbsp oil". */
#ifndef READ_LINE_LABEL_H
#define READ_LINE_LABEL_H

#include "read/line_food.h"

/* takes a label off the reader's clean line; it is said of the first food */
void line_label_take(struct food_reader *r);

#endif
