/* How to stay within the limits: choices that settle it, remedies, each way to make the dish. */
#ifndef WRITE_ADVICE_H
#define WRITE_ADVICE_H

#include "write/fragment_context.h"

/* in the measures and words of each region; nothing where there is nothing to say */
void advice_write(struct text *t, const struct fragment_context *s);

#endif
