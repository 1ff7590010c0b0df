/* HTML out of CommonMark nodes and marked-up text: always escaped, no raw HTML, only safe links. */
#ifndef WRITE_MARKUP_H
#define WRITE_MARKUP_H

#include "read/body.h"

enum mark_kind { MARK_TIME, MARK_HEAT, MARK_INGREDIENT, MARK_LENGTH };

struct mark { /* bytes from..to of a step's plain text, in order, not overlapping */
    size_t from, to;
    enum mark_kind kind;
    struct slice value; /* MARK_TIME: datetime; others: HTML to show instead, or empty */
};

/* what stands in a step, marks laid over its plain text; a single paragraph is written without its
 * <p>. Marks that would cross an element's edge are left out. */
void markup_step(struct text *t, const struct step *step, const struct mark *marks, size_t count);
/* siblings first..last as block HTML; the highest of their headings gets `heading_level`,
 * and none skips a level */
void markup_blocks(struct text *t, cmark_node *first, cmark_node *last, int heading_level);
/* words of measure: no line ends between a figure and its unit */
void markup_measure(struct text *t, struct slice words);
/* an address as a URI: what may not stand in one is percent-encoded */
void markup_address(struct text *t, struct slice url);
/* an author's words inside words of ours: isolated, so that their direction stays their own */
void markup_words(struct text *t, struct slice words);

#endif
