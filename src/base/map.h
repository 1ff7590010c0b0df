/* A map from text to a pointer. Keys are not copied: they live as long as the map. Iteration is in
 * the order of insertion, so that what is made from it is the same each time. */
#ifndef BASE_MAP_H
#define BASE_MAP_H

#include <stdint.h>

#include "base/text.h"

struct map_row {
    struct slice key;
    void *value;
    uint64_t hash;
};

struct map {
    struct arena *arena;
    struct map_row *rows; /* in order of insertion */
    size_t count, room;
    uint64_t *slots; /* open addressing; 0 when free */
    size_t slot_count;
};

struct map map_new(struct arena *a);
/* the same with slots for `count` keys from the start, so that it need not grow up to them */
struct map map_for(struct arena *a, size_t count);
/* the value, or NULL */
void *map_get(const struct map *m, struct slice key);
/* a copy in another arena with just the room it needs; keys and values are shared */
struct map map_compact(struct arena *a, const struct map *m);
/* sets or replaces; true when the key was new */
bool map_put(struct map *m, struct slice key, void *value);
/* the same of a map whose every key comes with a hash that its owner has of it */
void *map_get_hashed(const struct map *m, struct slice key, uint64_t hash);
bool map_put_hashed(struct map *m, struct slice key, uint64_t hash, void *value);

#endif
