/* Links from a post's text to other posts' files: which post each leads to, and which are dead. */
#ifndef COMPILE_LINKED_H
#define COMPILE_LINKED_H

#include "compile/post_finder.h"

/* fills out->linked, and that of dishes in the same file; a link that leads to no post is told.
 * finder NULL: no other post is known, and nothing is told */
void linked_judge(struct arena *a, const struct post_finder *finder, struct notices *notices,
                  struct outcome *out);

#endif
