#include "base/map.h"

#include <string.h>

#include "base/list.h"

/* odd numbers with bits all over them: the fractions of the golden ratio and of the root of three
 */
static const uint64_t MIX = UINT64_C(0x9e3779b97f4a7c15), TURN = UINT64_C(0xbb67ae8584caa73b);

static inline uint64_t
bytes_at(const char *at, size_t count)
{
    uint64_t value = 0;
    memcpy(&value, at, count);
    return value;
}

/* Keys are short, and each is hashed at every look-up: this takes a fraction of what a digest does
 * that must be good for a file. Eight bytes a step, the last ones once more where they overlap. */
static uint64_t
key_hash(struct slice key)
{
    uint64_t h = key.length * TURN;
    if (key.length < 8) {
        const size_t half = key.length / 2;
        if (key.length >= 4)
            h ^= bytes_at(key.at, 4) | bytes_at(key.at + key.length - 4, 4) << 32;
        else if (key.length > 0)
            h ^= (uint64_t)(unsigned char)key.at[0] | (uint64_t)(unsigned char)key.at[half] << 8 |
                 (uint64_t)(unsigned char)key.at[key.length - 1] << 16;
        h *= MIX;
        return h ^ h >> 32;
    }
    for (size_t i = 0; i + 8 < key.length; i += 8) {
        h = (h ^ bytes_at(key.at + i, 8)) * MIX;
        h ^= h >> 29;
    }
    h = (h ^ bytes_at(key.at + key.length - 8, 8)) * MIX;
    return h ^ h >> 32;
}

struct map
map_new(struct arena *a)
{
    return (struct map){.arena = a};
}

struct map
map_for(struct arena *a, size_t count)
{
    struct map m = {.arena = a, .slot_count = 16};
    while (count * 4 > m.slot_count * 3)
        m.slot_count *= 2;
    m.slots = arena_take_array(a, m.slot_count, sizeof *m.slots);
    m.room = count;
    m.rows = arena_take_raw(a, count * sizeof *m.rows);
    return m;
}

/* what stands at the slot of a row: the higher half of its hash, by which rows of other keys are
 * passed over without a look at them, and its number + 1 */
static inline uint64_t
slot_made(uint64_t hash, size_t row)
{
    return hash >> 32 << 32 | (uint64_t)(row + 1);
}

static inline struct map_row *
row_at(const struct map *m, size_t slot)
{
    return &m->rows[(uint32_t)m->slots[slot] - 1];
}

/* the slot of the key, or the free slot where it would go */
static size_t
slot_of(const struct map *m, struct slice key, uint64_t hash)
{
    size_t mask = m->slot_count - 1, at = (size_t)hash & mask;
    for (uint64_t slot; (slot = m->slots[at]) != 0; at = (at + 1) & mask) {
        if (slot >> 32 != hash >> 32)
            continue;
        const struct map_row *row = row_at(m, at);
        __builtin_prefetch(row->value); /* it comes while the keys are compared */
        if (slice_equal(row->key, key))
            break;
    }
    return at;
}

void *
map_get_hashed(const struct map *m, struct slice key, uint64_t hash)
{
    if (m->count == 0)
        return NULL;
    size_t at = slot_of(m, key, hash);
    return m->slots[at] != 0 ? row_at(m, at)->value : NULL;
}

void *
map_get(const struct map *m, struct slice key)
{
    return m->count > 0 ? map_get_hashed(m, key, key_hash(key)) : NULL;
}

static void
widen(struct map *m)
{
    size_t count = m->slot_count == 0 ? 16 : m->slot_count * 2;
    m->slots = arena_take_array(m->arena, count, sizeof *m->slots);
    m->slot_count = count;
    for (size_t i = 0; i < m->count; i++) {
        size_t at = (size_t)m->rows[i].hash & (count - 1);
        while (m->slots[at] != 0)
            at = (at + 1) & (count - 1);
        m->slots[at] = slot_made(m->rows[i].hash, i);
    }
}

bool
map_put(struct map *m, struct slice key, void *value)
{
    return map_put_hashed(m, key, key_hash(key), value);
}

bool
map_put_hashed(struct map *m, struct slice key, uint64_t hash, void *value)
{
    if ((m->count + 1) * 4 > m->slot_count * 3)
        widen(m);
    size_t at = slot_of(m, key, hash);
    if (m->slots[at] != 0) {
        row_at(m, at)->value = value;
        return false;
    }
    m->rows = list_room(m->arena, m->rows, &m->room, m->count, sizeof *m->rows);
    m->slots[at] = slot_made(hash, m->count);
    m->rows[m->count++] = (struct map_row){key, value, hash};
    return true;
}

struct map
map_compact(struct arena *a, const struct map *m)
{
    struct map copy = {a, NULL, m->count, m->count, NULL, m->slot_count};
    if (m->count == 0)
        return map_new(a);
    copy.rows = arena_take_array(a, m->count, sizeof *copy.rows);
    copy.slots = arena_take_array(a, m->slot_count, sizeof *copy.slots);
    memcpy(copy.rows, m->rows, m->count * sizeof *copy.rows);
    memcpy(copy.slots, m->slots, m->slot_count * sizeof *copy.slots);
    return copy;
}
