/* Tables of a fragment: nutrition in a region's form, microwave times at other powers. */
#ifndef WRITE_LABEL_H
#define WRITE_LABEL_H

#include "write/fragment_context.h"

/* by region, in the order and with the rounding of its law; what is missing where not enough has
 * figures */
void label_nutrition(struct text *t, const struct fragment_context *s);
/* a row a power, a column a stated time; nothing when no microwave time is stated with a power */
void label_microwave(struct text *t, const struct fragment_context *s);

#endif
