/* Slugs: which post has which. The first post in the order of paths has it, whatever the order in
 * which workers come to ask. Known by digest alone. Not thread-safe: callers lock. */
#ifndef PRESS_SLUGS_H
#define PRESS_SLUGS_H

#include "base/text.h"

enum { SLUG_FREE = -1, SLUG_OF_PROGRAM = -2 };

struct slug_slot {
    uint64_t digest; /* 0: free */
    int64_t holder;  /* number of a post, or SLUG_OF_PROGRAM */
};

struct slugs {
    struct slug_slot *slots;
    size_t count, slot_count;
};

/* `index` is the program's own: preview/index.html. False when memory fails */
bool slugs_begin(struct slugs *s, size_t posts);
void slugs_close(struct slugs *s);
/* who has the slug now, or SLUG_FREE */
int64_t slugs_holder(const struct slugs *s, struct slice slug);
/* post asks for the slug. True: it has it; *displaced is a later post that had it, or SLUG_FREE.
 * False: an earlier one has it. There is room for as many slugs as slugs_begin was told, twice. */
bool slugs_claim(struct slugs *s, struct slice slug, int64_t post, int64_t *displaced);

#endif
