/* Slugs that were lost and found while posts were made are given their right owners. */
#ifndef PRESS_SETTLE_H
#define PRESS_SETTLE_H

#include "press/state.h"
#include "press/workers.h"

/* makes those posts again whose slug changed hands */
void settle_slugs(struct press_state *p, struct worker *w);

#endif
