/* How to stay within the limits: choices that settle it, remedies, each way to make the dish. */
#ifndef WRITE_ADVICE_H
#define WRITE_ADVICE_H

#include "write/fragment_context.h"

/* the one thing to do, in the measures and words of each region; nothing where there is none */
void advice_write(struct text *t, const struct fragment_context *s);
/* folded: what else would do, and every way to make the dish where the ways stand differently */
void advice_ways(struct text *t, const struct fragment_context *s);

#endif
