#include "base/map.h"

#include <string.h>

#include "base/list.h"

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
place_of(const struct map *m, struct slice key, uint64_t digest)
{
    size_t mask = m->place_count - 1, at = (size_t)digest & mask;
    while (m->places[at] != 0) {
        const struct map_row *row = &m->rows[m->places[at] - 1];
        if (row->digest == digest && slice_equal(row->key, key))
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
    size_t at = place_of(m, key, slice_digest(key, 0));
    return m->places[at] != 0 ? m->rows[m->places[at] - 1].value : NULL;
}

static void
widen(struct map *m)
{
    size_t count = m->place_count == 0 ? 16 : m->place_count * 2;
    m->places = arena_take_array(m->arena, count, sizeof *m->places);
    m->place_count = count;
    for (size_t i = 0; i < m->count; i++) {
        size_t at = (size_t)m->rows[i].digest & (count - 1);
        while (m->places[at] != 0)
            at = (at + 1) & (count - 1);
        m->places[at] = (uint32_t)i + 1;
    }
}

bool
map_put(struct map *m, struct slice key, void *value)
{
    return map_put_known(m, key, slice_digest(key, 0), value);
}

bool
map_put_known(struct map *m, struct slice key, uint64_t digest, void *value)
{
    if ((m->count + 1) * 4 > m->place_count * 3)
        widen(m);
    size_t at = place_of(m, key, digest);
    if (m->places[at] != 0) {
        m->rows[m->places[at] - 1].value = value;
        return false;
    }
    m->rows = list_room(m->arena, m->rows, &m->room, m->count, sizeof *m->rows);
    m->rows[m->count++] = (struct map_row){key, value, digest};
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
