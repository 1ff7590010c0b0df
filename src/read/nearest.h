/* The known word that a mistyped one was meant to be. */
#ifndef READ_NEAREST_H
#define READ_NEAREST_H

#include "base/text.h"

/* the known word nearest to `word` by edit distance, or NULL when none is near; `known` ends with
 * NULL */
const char *nearest_word(struct slice word, const char *const *known);

/* edits (insert, delete, change, swap neighbours) from one to the other, regardless of case; more
 * than `most` counts as most + 1 */
size_t nearest_distance(struct slice a, struct slice b, size_t most);

/* whether two letters side by side, swapped, are all that differs */
bool nearest_is_swapped(struct slice a, struct slice b);

#endif
