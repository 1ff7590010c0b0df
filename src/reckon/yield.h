/* How many portions a dish makes: yield, portion and number of portions as a writer states them,
 * held against each other. */
#ifndef RECKON_YIELD_H
#define RECKON_YIELD_H

#include "reckon/dish.h"

/* fills the yield and portion fields of a dish. A yield may be given in two ways ("1 loaf (12
 * slices)"): the one that the portion is counted in holds. Where yield and portion disagree with
 * the stated number of portions, the fewest hold. Notices: unreadable, misfit. */
void yield_read(struct arena *a, const struct front_matter *front, const struct lexicon *lexicon,
                struct notices *notices, struct dish *out);

#endif
