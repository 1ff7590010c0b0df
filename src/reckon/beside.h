/* What one portion takes of a sitting, so that two dishes can be held against each other without
 * being reckoned together. */
#ifndef RECKON_BESIDE_H
#define RECKON_BESIDE_H

#include "reckon/portion.h"

/* A part of a limit that a portion stays below with all but half the chance that makes a portion
 * close. Where the parts of two portions add up to 1 at most, the chance that both together are
 * over is that of close-at at most, whatever they have in common (the chances of either event add
 * up at most; Boole's inequality). */
struct beside {
    bool fits;               /* it is within in every way to make it; else nothing more is known */
    double sitting, portion; /* of the total; of what is limited over the portion, as lactose, the
                                largest */
    const char **foods;      /* of which it brings enough to matter to another dish with it: their
                                leads */
    size_t count;
};

/* stand: of the dish, whose sheet is still there */
void beside_reckon(struct arena *a, const struct phase_stand *stand, struct beside *out);

#endif
