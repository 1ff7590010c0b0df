/* The <article> of a post, to include in any page. */
#ifndef WRITE_FRAGMENT_H
#define WRITE_FRAGMENT_H

#include "compile/outcome.h"
#include "write/fragment_context.h"

struct fragment_manner {
    int heading_level; /* of the title: 1 to 4 */
    int region;        /* one region alone, or -1: all of the site's with radio buttons */
};

/* opens the <article>, with a further class or none, and its body behind title and byline; sets the
 * language of the author's words */
void fragment_begin(struct text *t, struct fragment_context *s, const char *further_class);
/* whom the advice defers to, where it is said here; closes what fragment_begin opened */
void fragment_end(struct text *t, bool advice);
void fragment_write(struct text *t, const struct outcome *o, const struct fragment_manner *manner);
/* the stylesheet, NUL-terminated */
extern const char fragment_stylesheet[];

#endif
