/* How often a duration is gone through: sides, batches, lots. */
#ifndef READ_DURATION_TIMES_H
#define READ_DURATION_TIMES_H

#include "read/duration_part.h"

/* fills times of all durations of a text: "per side", "in two batches", "3 x 10 minutes" */
void duration_times_read(const struct words *w, struct durations *all, struct placed *places);

#endif
