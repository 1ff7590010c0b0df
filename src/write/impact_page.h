/* A change of tables as one page to look at and to send: every post's standing before and after,
 * the largest moves first. It stands by itself: no script, no other file. */
#ifndef WRITE_IMPACT_PAGE_H
#define WRITE_IMPACT_PAGE_H

#include "compile/outcome.h"

/* how one portion stands under one of the two tables */
struct impact_side {
    enum standing standing, best; /* worst and best way to make it, in the site's phase */
    bool nearest_known, sitting_known;
    struct span nearest, sitting; /* shares of limits */
    struct slice food;            /* what is nearest to its limit, as the post calls it */
};

struct impact_row {
    struct slice title, path;
    struct impact_side before, after;
};

/* false of a post that cannot be read */
bool impact_side_of(const struct outcome *o, struct impact_side *out);
/* sorts the rows */
void impact_page_write(struct text *t, const struct site *site, struct slice asked,
                       struct impact_row *rows, size_t count);

#endif
