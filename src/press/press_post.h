/* One post made: read, compiled, its outputs and its record written. */
#ifndef PRESS_PRESS_POST_H
#define PRESS_PRESS_POST_H

#include "press/state.h"
#include "press/workers.h"

/* makes post i. Whatever happens, p->posts[i] says how it now stands. */
void press_post(struct press_state *p, struct worker *w, size_t i);
/* after press_post ran out of memory */
void press_post_exhausted(struct press_state *p, size_t i);

#endif
