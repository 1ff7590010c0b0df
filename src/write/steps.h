/* The method of a fragment: numbered steps with stable anchors, times marked, temperatures in the
 * scales of each region, cautions in the step that needs them. */
#ifndef WRITE_STEPS_H
#define WRITE_STEPS_H

#include "write/fragment_context.h"

void steps_write(struct text *t, const struct fragment_context *s);
/* "SLUG-step-3": the id of a step, counted over all parts from 1; shared with the data */
void steps_anchor(struct text *t, struct slice slug, size_t number);

#endif
