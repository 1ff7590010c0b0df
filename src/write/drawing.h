/* Drawings in one ink: the bar of a share with its tick at the limit, and the time of a method.
 * Inline SVG in the colour of the text, so that print, dark pages and forced colours need no care.
 */
#ifndef WRITE_DRAWING_H
#define WRITE_DRAWING_H

#include "write/fragment_context.h"

/* the bar of one share: solid up to the limit, hatched past it, a line to the high end. `most` is
 * the share at the right edge; hidden from screen readers, since the number stands beside it */
void drawing_share(struct text *t, struct span share, double most);

/* one bar a step that states a time: the shortest solid, the longest outlined; thin where nobody
 * needs to stand by. A figure with title and description; nothing when fewer than two steps do */
void drawing_schedule(struct text *t, const struct fragment_context *s);

#endif
