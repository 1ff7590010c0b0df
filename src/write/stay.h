/* How to stay within the limits: choices that settle it, remedies, each way to make the dish. */
#ifndef WRITE_STAY_H
#define WRITE_STAY_H

#include "write/setting.h"

/* in the measures and words of each region; nothing where there is nothing to say */
void stay_write(struct text *t, const struct setting *s);

#endif
