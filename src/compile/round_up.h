/* A round-up: several dishes under common promises. They stand in its own file (`dishes:`), or are
 * other posts (`gathers:`). */
#ifndef COMPILE_ROUND_UP_H
#define COMPILE_ROUND_UP_H

#include "compile/post_finder.h"

/* out->post is read. Compiles each dish, and holds what the round-up claims and what its title
 * promises for each; finder NULL: no other post is known */
void round_up_compile(struct arena *a, const struct tables *t, const struct post_finder *finder,
                      struct notices *notices, struct outcome *out);

/* the clips of a post's film, with the dishes and steps that they show; of a recipe too */
void round_up_clips(struct arena *a, struct notices *notices, struct outcome *out);

/* the dishes that are there */
size_t round_up_count(const struct outcome *o);

#endif
