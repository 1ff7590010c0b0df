#include "base/reads.h"

#include <string.h>

#include "base/list.h"

void
reads_entry_name(struct entry *e, const char *key)
{
    const struct slice name = slice_of(key);
    e->key = key;
    e->key_length = (uint32_t)name.length;
    e->key_digest = slice_digest(name, 0);
}

struct reads
reads_new(struct arena *a)
{
    enum { USUAL = 450 }; /* what a post reads and asks, about */
    struct reads r = {.arena = a, .room = USUAL, .noted = map_for(a, USUAL)};
    r.items = arena_take_raw(a, USUAL * sizeof *r.items);
    return r;
}

void
reads_note(struct reads *r, const struct entry *e)
{
    if (r == NULL || e == NULL ||
        !map_put_hashed(&r->noted, (struct slice){e->key, e->key_length}, e->key_digest,
                        (void *)(uintptr_t)e))
        return;
    *LIST_GROW(r->arena, r) = e;
    if (e->changed != NULL && (r->latest == NULL || strcmp(e->changed, r->latest) > 0))
        r->latest = e->changed;
}

void
reads_note_question(struct reads *r, struct slice key, uint64_t answer)
{
    if (r == NULL || reads_hold(r, key))
        return;
    struct entry *e = arena_take(r->arena, sizeof *e);
    reads_entry_name(e, slice_string(r->arena, key));
    e->digest = answer;
    reads_note(r, e);
}

bool
reads_hold(const struct reads *r, struct slice key)
{
    return map_get_hashed(&r->noted, key, slice_digest(key, 0)) != NULL;
}

const char *
reads_changed(const struct reads *r)
{
    return r->latest;
}
