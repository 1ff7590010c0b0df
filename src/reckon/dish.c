#include "reckon/dish.h"

double
dish_divisor(const struct dish *d)
{
    return d->portions_known && d->portions.low > 0 ? d->portions.low : 1;
}

struct slice
ingredient_called(const struct ingredient *in)
{
    const struct written_food *f = in->option_count > 0 && in->options[0].count > 0
                                       ? in->options[0].helpings[0].written
                                       : NULL;
    return f != NULL && f->name.length > 0 ? f->name : in->line.text;
}
