/* Which remedies a cook would take: sensible ones first, and those that leave hardly the same dish
 * only where nothing else helps. */
#ifndef RECKON_REMEDY_RANK_H
#define RECKON_REMEDY_RANK_H

#include "reckon/remedy.h"

/* Drastic is: more than three times the portions, less than a third of one, less than a quarter of
 * an ingredient, or none of one that is more than a tenth of the dish, or more than four changes.
 * Common practice, no source. */
bool remedy_misses(const struct dish *d, const struct cut *cut); /* of one cut */
bool remedy_is_drastic(const struct dish *d, const struct remedy *r);

/* marks each, and puts the sensible first: choices, one cut, portions, several cuts. Where there
 * are sensible ones the drastic are left out. Returns how many stay. */
size_t remedies_rank(const struct dish *d, struct remedy *items, size_t count);

#endif
