/* catalogue.json: an array with one object a line, for a site's own search. */
#ifndef WRITE_CATALOGUE_H
#define WRITE_CATALOGUE_H

#include "write/gathering.h"

struct slice catalogue_line(struct arena *a, const struct outcome *o);
bool catalogue_write(const struct gathering *g, struct outlet out);

#endif
