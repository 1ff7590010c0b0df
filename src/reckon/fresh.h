/* The allowance for fresh produce: the larger limit of excess fructose, where nothing else is
 * present in the serve (Varney et al. 2017). */
#ifndef RECKON_FRESH_H
#define RECKON_FRESH_H

#include "reckon/shares.h"

/* whether the lines of a case's food are all fresh and hold no other group */
bool fresh_serve(const struct shares *s, const struct limit_case *c, const uint8_t *ways);
/* the limit of a case for an entry, g; fresh: with the allowance. NULL: there is none. That the
 * limit is read was noted by who asked whether it holds. */
const struct figure *fresh_limit(const struct shares *s, const struct limit_case *c, size_t entry,
                                 bool fresh);

#endif
