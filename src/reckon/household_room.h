/* Amounts for the kitchens of a region, so that a portion keeps its standing there. */
#ifndef RECKON_HOUSEHOLD_ROOM_H
#define RECKON_HOUSEHOLD_ROOM_H

#include "reckon/household.h"

/* household_write, rounded to the nearest where the helping carries nothing that is limited or the
 * portion would stand alike with a twentieth more of everything, else down. What was weighed goes
 * into cups only where the portion also has room for the spread of its density; else it stays a
 * weight. */
void household_write_safely(struct arena *a, const struct helping *h, int region, int post_region,
                            const struct tables *t, const struct phase_stand *stand,
                            struct reads *reads, struct household *out);

#endif
