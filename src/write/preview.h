/* Whole pages over the fragments, to look at in a browser. */
#ifndef WRITE_PREVIEW_H
#define WRITE_PREVIEW_H

#include "write/fragment.h"
#include "write/gathering.h"

/* A page around a fragment written so, with its data in a script element; lies in OUT/preview, its
 * stylesheets are ../dariole.css and preview.css. The fragment and the data are written once and
 * told of where they came to lie, mostly in the page. */
void preview_page(struct text *t, const struct outcome *o, const struct fragment_manner *manner,
                  struct slice *fragment, struct slice *data);
struct slice preview_row(struct arena *a, const struct outcome *o);
/* the pages' own rules, NUL-terminated */
extern const char preview_stylesheet[];
/* the filter of the index, NUL-terminated */
extern const char preview_script[];
/* the index over all posts; its head is made in `a` */
bool preview_index(struct arena *a, const struct tables *t, const struct gathering *g,
                   struct outlet out);

#endif
