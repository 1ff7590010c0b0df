/* The whole way of one post: bytes -> read -> dish -> portions -> claims, times, cautions ->
 * findings. A round-up is a post of several dishes, each of which goes the same way. */
#ifndef COMPILE_COMPILE_H
#define COMPILE_COMPILE_H

#include "compile/outcome.h"
#include "compile/round_up.h"

/* what a post is compiled from besides its own bytes */
struct compile_sources {
    const struct tables *tables;
    const struct picture_finder *pictures; /* NULL: pictures are taken to be there */
    const struct post_finder *posts;       /* NULL: no other post is known */
};

/* bytes and tables must outlive the arena. Never fails: what is wrong with the post is in the
 * findings. Memory that runs out jumps to the arena's guard. */
void compile_post(struct arena *a, const struct compile_sources *sources,
                  const struct post_bytes *post, struct reads *reads, struct outcome *out);

#endif
