/* Numbers as cooks write them. */
#ifndef RECKON_FRACTION_H
#define RECKON_FRACTION_H

#include "base/text.h"

/* a number with vulgar fractions: 1½, ⅔, 2.25 -> 2¼ */
void fraction_add(struct text *t, double value);

#endif
