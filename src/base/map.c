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
    struct map m = {.arena = a, .place_count = 16};
    while (count * 4 > m.place_count * 3)
        m.place_count *= 2;
    m.places = arena_take_array(a, m.place_count, sizeof *m.places);
    m.room = count;
    m.rows = arena_take_raw(a, count * sizeof *m.rows);
    return m;
}

/* the place of the key, or the free place where it would go */
static size_t
place_of(const struct map *m, struct slice key, uint64_t hash)
{
    size_t mask = m->place_count - 1, at = (size_t)hash & mask;
    while (m->places[at] != 0) {
        const struct map_row *row = &m->rows[m->places[at] - 1];
        if (row->hash == hash && slice_equal(row->key, key))
            break;
        at = (at + 1) & mask;
    }
    return at;
}

void *
map_get(const struct map *m, struct slice key)
{
    if (m->count == 0)
        return NULL;
    size_t at = place_of(m, key, key_hash(key));
    return m->places[at] != 0 ? m->rows[m->places[at] - 1].value : NULL;
}

static void
widen(struct map *m)
{
    size_t count = m->place_count == 0 ? 16 : m->place_count * 2;
    m->places = arena_take_array(m->arena, count, sizeof *m->places);
    m->place_count = count;
    for (size_t i = 0; i < m->count; i++) {
        size_t at = (size_t)m->rows[i].hash & (count - 1);
        while (m->places[at] != 0)
            at = (at + 1) & (count - 1);
        m->places[at] = (uint32_t)i + 1;
    }
}

bool
map_put(struct map *m, struct slice key, void *value)
{
    if ((m->count + 1) * 4 > m->place_count * 3)
        widen(m);
    uint64_t hash = key_hash(key);
    size_t at = place_of(m, key, hash);
    if (m->places[at] != 0) {
        m->rows[m->places[at] - 1].value = value;
        return false;
    }
    m->rows = list_room(m->arena, m->rows, &m->room, m->count, sizeof *m->rows);
    m->rows[m->count++] = (struct map_row){key, value, hash};
    m->places[at] = (uint32_t)m->count;
    return true;
}

struct map
map_settle(struct arena *a, const struct map *m)
{
    struct map copy = {a, NULL, m->count, m->count, NULL, m->place_count};
    if (m->count == 0)
        return map_new(a);
    copy.rows = arena_take_array(a, m->count, sizeof *copy.rows);
    copy.places = arena_take_array(a, m->place_count, sizeof *copy.places);
    memcpy(copy.rows, m->rows, m->count * sizeof *copy.rows);
    memcpy(copy.places, m->places, m->place_count * sizeof *copy.places);
    return copy;
}
