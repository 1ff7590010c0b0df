/* Oven heats that cannot be meant: hotter than an oven gets, or too cool to bake in the time that
 * the steps state. Mostly a number in the wrong scale. */
#ifndef RECKON_HEAT_DOUBT_H
#define RECKON_HEAT_DOUBT_H

#include "reckon/schedule.h"

/* marks them in the steps */
void heat_doubt_mark(struct schedule *s);
/* what is wrong with one, and the scale that was perhaps meant */
struct slice heat_doubt_words(struct arena *a, const struct heat *h);

#endif
