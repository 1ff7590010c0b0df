/* How far apart two words are, for naming what was probably meant. */
#ifndef BASE_EDIT_H
#define BASE_EDIT_H

#include "base/text.h"

/* letters to add, drop, change or swap with a neighbour to make a of b; more than `most` counts as
 * most + 1 */
size_t edit_distance(struct slice a, struct slice b, size_t most);

#endif
