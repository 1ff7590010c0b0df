/* From the ingredient lines of a post to its dish: lines read, foods found and weighed. */
#ifndef RECKON_DISH_BUILD_H
#define RECKON_DISH_BUILD_H

#include "reckon/dish.h"

/* lays the dish out; notices for lines, foods, weights, yield and portion */
void dish_build(struct arena *a, const struct post *post, const struct tables *tables,
                struct reads *reads, struct notices *notices, struct dish *out);

/* one line, already read, found and weighed; notices for foods and weights */
void dish_build_line(struct arena *a, const struct ingredient_line *line, int region,
                     const struct tables *tables, struct reads *reads, struct notices *notices,
                     struct ingredient *out);

#endif
