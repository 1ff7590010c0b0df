#include "base/reads.h"

#include <string.h>

enum { USUAL = 380 }; /* what most posts read, about */

void
entry_name(struct entry *e, const char *key)
{
    const struct slice name = slice_of(key);
    e->key = key;
    e->key_length = (uint32_t)name.length;
    e->key_digest = slice_digest(name, 0);
}

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
                          arena_take_array(record, READS_NOTED, sizeof(struct entry *)), NULL};
}

void
reads_add(struct reads *r, const struct entry *e)
{
    r->noted[(uint64_t)(uintptr_t)e * UINT64_C(0x9e3779b97f4a7c15) >> 32 & (READS_NOTED - 1)] = e;
    if (e->changed != NULL && (r->latest == NULL || strcmp(e->changed, r->latest) > 0))
        r->latest = e->changed;
    map_put_known(&r->seen, (struct slice){e->key, e->key_length}, e->key_digest,
                  (void *)(uintptr_t)e);
}

void
reads_note_question(struct reads *r, struct slice key, uint64_t answer)
{
    if (r == NULL || map_get(&r->seen, key) != NULL)
        return;
    struct entry *e = arena_take(r->arena, sizeof *e);
    entry_name(e, slice_string(r->arena, key));
    e->digest = answer;
    map_put_known(&r->seen, (struct slice){e->key, e->key_length}, e->key_digest, e);
}

const char *
reads_changed(const struct reads *r)
{
    return r->latest;
}
