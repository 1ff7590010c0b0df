/* Whole pages over the fragments, to look at in a browser. */
#ifndef WRITE_PREVIEW_H
#define WRITE_PREVIEW_H

#include "write/feed.h"

/* a page around a fragment, with its data in a script element */
void preview_page(struct text *t, const struct outcome *o, struct slice fragment,
                  struct slice data);
struct slice preview_row(struct arena *a, const struct outcome *o);
bool preview_index(const struct tables *t, const struct gathering *g, struct outlet out);

#endif
