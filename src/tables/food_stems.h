/* The stems of a name put together, as keys that names are found by. */
#ifndef TABLES_FOOD_STEMS_H
#define TABLES_FOOD_STEMS_H

#include "base/text.h"

/* the key of stems: sorted, one space between them */
struct slice food_stems_key(struct arena *a, struct slice *stems, size_t count);

/* the stems as they come, one space between them */
struct slice food_stems_spaced(struct arena *a, const struct slice *stems, size_t count);

/* the stems of a name joined to one word */
struct slice food_stems_joined(struct arena *a, const struct slice *stems, size_t count);

#endif
