/* The known word that a mistyped one was meant to be. */
#ifndef READ_NEAREST_H
#define READ_NEAREST_H

#include "base/text.h"

/* the known word nearest to `word` by edit distance, or NULL when none is near; `known` ends with
 * NULL */
const char *nearest_word(struct slice word, const char *const *known);

#endif
