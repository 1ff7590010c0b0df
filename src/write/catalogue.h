/* catalogue.json: one object a line for a site's own search. */
#ifndef WRITE_CATALOGUE_H
#define WRITE_CATALOGUE_H

#include "write/feed.h"

struct slice catalogue_line(struct arena *a, const struct outcome *o);
bool catalogue_write(const struct tables *t, const struct gathering *g, struct outlet out);

#endif
