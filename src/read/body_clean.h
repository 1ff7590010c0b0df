/* What must not reach a reader is taken out of the tree here: raw HTML, links that could carry
 * script, hidden characters; and nesting that no recipe has is not parsed at all. */
#ifndef READ_BODY_CLEAN_H
#define READ_BODY_CLEAN_H

#include "read/body_links.h"
#include "read/body_lines.h"
#include "read/link.h"

/* false after a notice when lists and quotes are nested past all sense, link definitions would grow
 * past all bounds, or there are more marks than a recipe ever has */
bool body_bounded(const struct lines *l, struct notices *notices);
/* whether a body has few enough marks of links and emphasis; cmark keeps some 400 bytes for each */
bool body_marks_bounded(struct slice body);

/* takes out what may not be published, with a notice each; comments and <br> go without one. New
 * nodes take from `memory`. Gives the links to other posts' files. */
struct body_links body_clean(struct arena *a, const struct lines *l, cmark_node *document,
                             cmark_mem *memory, struct notices *notices);

#endif
