/* A dish after a cook's changes, for remedy.c. */
#ifndef RECKON_REMEDY_CHANGE_H
#define RECKON_REMEDY_CHANGE_H

#include "reckon/remedies.h"

/* the dish with all of the changes; the given one stays as it is. At most one change of a line. */
struct dish change_apply(struct arena *a, const struct dish *d, const struct change *changes,
                         size_t count);
/* whether a swap stands for the food of a helping */
bool change_swaps(const struct swap *s, const struct helping *h);
/* one helping alone, of so many edible g, as a dish of one portion */
struct dish change_alone(struct arena *a, const struct helping *h, double grams);
/* the one portion that loads are divided by, in the yield's kind; 0: a number of portions is said
 */
double change_portion_said(const struct dish *d);

#endif
