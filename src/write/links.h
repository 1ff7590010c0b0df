/* Addresses in the writer's prose: a link to another post's file leads to its page, and in a feed,
 * which is read elsewhere, every address is whole. */
#ifndef WRITE_LINKS_H
#define WRITE_LINKS_H

#include "compile/outcome.h"

/* settles what was written from byte `from` on. `whole`: relative addresses get the site's in
 * front, where it has one. */
void links_resolve(struct text *t, size_t from, const struct outcome *o, bool whole);

#endif
