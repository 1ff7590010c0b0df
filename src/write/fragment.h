/* The <article> of a post, to include in any page. */
#ifndef WRITE_FRAGMENT_H
#define WRITE_FRAGMENT_H

#include "compile/outcome.h"
#include "write/source_line.h"

struct fragment_manner {
    int heading_level; /* of the title: 1 to 4 */
    int region;        /* one region alone, or -1: all of the site's with radio buttons */
};

void fragment_write(struct text *t, const struct outcome *o, const struct fragment_manner *manner);
/* the stylesheet, NUL-terminated */
extern const char fragment_stylesheet[];

#endif
