/* The nutrition of a portion in a worksheet, food by food. */
#ifndef WRITE_WORKSHEET_NUTRITION_H
#define WRITE_WORKSHEET_NUTRITION_H

#include "write/worksheet_page.h"

/* nutrition of one portion, food by food */
void worksheet_nutrition(struct page *p);

#endif
