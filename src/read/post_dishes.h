/* The dishes of a round-up in one file: each is a post of its own with the method that stands under
 * the heading of its name. */
#ifndef READ_POST_DISHES_H
#define READ_POST_DISHES_H

#include "read/post.h"

/* fills post->dishes, and post->body with the prose before them; the post comes from post_read. A
 * dish without a heading of its name is told, and has no method. */
void post_dishes_read(struct arena *a, struct notices *notices, struct post *post);

#endif
