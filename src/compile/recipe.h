/* One recipe reckoned and judged: a post, or a dish of a round-up. */
#ifndef COMPILE_RECIPE_H
#define COMPILE_RECIPE_H

#include "compile/outcome.h"

/* o->post and o->reads are there; fills all that belongs to the recipe itself */
void recipe_compile(struct arena *a, const struct tables *t, struct notices *notices,
                    struct outcome *o);
/* its two halves, for those who measure them; sheet: of the dish, filled by the first */
void recipe_reckon(struct arena *a, const struct tables *t, struct notices *notices,
                   struct outcome *o, struct sheet *sheet);
void recipe_judge(struct arena *a, const struct tables *t, struct notices *notices,
                  struct outcome *o, const struct sheet *sheet);

#endif
