#include "base/reads.h"

#include <string.h>

/* places of the quick yes, a power of two; and what most posts read, about */
enum { NOTED = 512, USUAL = 380 };

struct reads
reads_new(struct arena *a)
{
    struct reads r = reads_apart(a, a);
    r.seen = map_for(a, USUAL);
    return r;
}

struct reads
reads_apart(struct arena *questions, struct arena *record)
{
    return (struct reads){questions, map_new(record),
                          arena_take_array(record, NOTED, sizeof(struct entry *)), NULL};
}

void
reads_note(struct reads *r, const struct entry *e)
{
    if (r == NULL || e == NULL)
        return;
    const struct entry **noted =
        &r->noted[(uint64_t)(uintptr_t)e * UINT64_C(0x9e3779b97f4a7c15) >> 32 & (NOTED - 1)];
    if (*noted == e)
        return;
    *noted = e;
    if (e->changed != NULL && (r->latest == NULL || strcmp(e->changed, r->latest) > 0))
        r->latest = e->changed;
    map_put(&r->seen, slice_of(e->key), (void *)(uintptr_t)e);
}

void
reads_note_question(struct reads *r, struct slice key, uint64_t answer)
{
    if (r == NULL || map_get(&r->seen, key) != NULL)
        return;
    struct entry *e = arena_take(r->arena, sizeof *e);
    e->key = slice_string(r->arena, key);
    e->digest = answer;
    map_put(&r->seen, (struct slice){e->key, key.length}, e);
}

const char *
reads_changed(const struct reads *r)
{
    return r->latest;
}
