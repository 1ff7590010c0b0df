/* The ingredient list of a fragment: the cook's own lines, measures and food names of each region,
 * grams beside them, allergens emphasised, what is missing said. */
#ifndef WRITE_INGREDIENTS_H
#define WRITE_INGREDIENTS_H

#include "write/fragment_context.h"

void ingredients_write(struct text *t, const struct fragment_context *s);
/* an ingredient as plain words: the cook's line, or what a mapping says put into one */
struct slice ingredients_words(struct arena *a, const struct outcome *o,
                               const struct ingredient *in);

#endif
