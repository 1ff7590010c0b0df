/* What was built in an arena, kept as bytes that another run can take up at once: pointers and all.
 * Only for the very program that made it; its digest belongs to the key. */
#ifndef TABLES_TABLE_IMAGE_H
#define TABLES_TABLE_IMAGE_H

#include "base/text.h"

struct image_key {
    uint64_t low, high;
};

/* builds the thing in an arena, the same each time, and returns it */
typedef void *(*image_build)(struct arena *a, void *ctx);

/* The bytes of what `build` makes, into `out`; `room` bytes must hold it. False when it cannot be
 * kept (it is larger, or there is no memory). */
bool table_image_make(image_build build, void *ctx, size_t room, struct image_key key,
                      struct text *out);

/* What was built, in the bytes themselves, which lie in arena `a` and from then on belong to it;
 * NULL when they are damaged or made under another key. */
void *table_image_wake(struct arena *a, char *bytes, size_t length, struct image_key key);

#endif
