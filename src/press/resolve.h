/* Slugs that were lost and found while posts were made are given their right owners. */
#ifndef PRESS_RESOLVE_H
#define PRESS_RESOLVE_H

#include "press/state.h"
#include "press/workers.h"

/* makes those posts again whose slug changed hands */
void resolve_slugs(struct press_state *p, struct worker *w);

#endif
