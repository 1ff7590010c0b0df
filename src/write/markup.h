/* HTML out of CommonMark nodes and marked-up text: always escaped, no raw HTML, only safe links. */
#ifndef WRITE_MARKUP_H
#define WRITE_MARKUP_H

#include <cmark.h>

#include "base/text.h"

enum mark_kind { MARK_TIME, MARK_HEAT, MARK_INGREDIENT, MARK_ALLERGEN };

struct mark { /* bytes from..to of a step's plain text, in order, not overlapping */
    size_t from, to;
    enum mark_kind kind;
    struct slice value; /* MARK_TIME: datetime; MARK_HEAT: what to show instead */
};

/* the children of a node as inline HTML, with marks laid over their plain text */
void markup_inlines(struct text *t, cmark_node *parent, const struct mark *marks, size_t count);
/* siblings first..last as block HTML; headings begin at `heading_level` */
void markup_blocks(struct text *t, cmark_node *first, cmark_node *last, int heading_level);
/* http, https, mailto or relative, without control characters */
bool markup_link_safe(struct slice url);

#endif
