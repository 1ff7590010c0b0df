/* How each line of a post was understood: food and form, grams, what was taken as preparation and
 * what was passed over. */
#ifndef WRITE_UNDERSTOOD_H
#define WRITE_UNDERSTOOD_H

#include "compile/outcome.h"

/* one table of all lines, for a terminal */
void understood_text(struct text *t, const struct outcome *o);
/* one JSON object a food of the way written first, each on a line of its own, as `weigh --json` */
void understood_json(struct text *t, const struct outcome *o);
/* the same table in HTML, folded together, for a preview */
void understood_html(struct text *t, const struct outcome *o);

#endif
