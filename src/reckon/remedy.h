/* What a cook would do so that a portion stands within the limits, tried in the order in which a
 * cook thinks of it: another option, a garnish left out, a swap, less of a line, a smaller portion.
 * Each was applied to a copy of the dish and reckoned again, over every way to make it. */
#ifndef RECKON_REMEDY_H
#define RECKON_REMEDY_H

#include "reckon/remedies.h"

/* reads: what swaps bring in is noted too */
void remedies_find(struct arena *a, const struct remedy_asked *asked, struct reads *reads,
                   struct remedies *out);

#endif
