#include "base/reads.h"

#include <string.h>

#include "base/list.h"

/* what most posts read and ask, about; and by how many numbers there is room for more */
enum { USUAL = 448, USUAL_ASKED = 90, NUMBERS = 1024 };

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
    r.room = USUAL;
    r.items = arena_take_raw(a, USUAL * sizeof *r.items);
    r.asked = map_for(a, USUAL_ASKED);
    return r;
}

struct reads
reads_apart(struct arena *questions, struct arena *record)
{
    return (struct reads){.arena = questions, .record = record, .asked = map_new(record)};
}

void
reads_forget(struct reads *r)
{
    for (size_t i = 0; i < r->count; i++)
        if (r->items[i]->number != 0)
            r->numbers[r->items[i]->number / 64] = 0;
    r->count = 0;
    r->latest = NULL;
    r->asked = map_new(r->record);
}

static void
keep_latest(struct reads *r, const char *changed)
{
    if (changed != NULL && changed != r->latest &&
        (r->latest == NULL || strcmp(changed, r->latest) > 0))
        r->latest = changed;
}

static inline void
add(struct reads *r, const struct entry *e)
{
    r->items = list_room(r->record, r->items, &r->room, r->count, sizeof *r->items);
    r->items[r->count++] = e;
}

/* whether an entry of that number was not noted before; it is from now on */
static inline bool
is_new(struct reads *r, uint32_t number)
{
    if (number >= r->number_room) {
        const size_t room = (number / NUMBERS + 1) * NUMBERS;
        r->numbers = arena_regrow(r->record, r->numbers, r->number_room / 8, room / 8);
        r->number_room = room;
    }
    uint64_t *word = &r->numbers[number / 64], was = *word;
    *word |= UINT64_C(1) << number % 64;
    return *word != was;
}

/* the same of one without a number */
static bool
is_asked_first(struct reads *r, const struct entry *e)
{
    return map_put_hashed(&r->asked, (struct slice){e->key, e->key_length}, e->key_digest,
                          (void *)(uintptr_t)e);
}

void
reads_note_new(struct reads *r, const struct entry *e)
{
    if (e->number != 0 ? !is_new(r, e->number) : !is_asked_first(r, e))
        return;
    add(r, e);
    keep_latest(r, e->changed);
}

struct noted
reads_keep(const struct reads *r, struct arena *a)
{
    struct noted kept = {.count = r->count, .latest = r->latest};
    kept.items = arena_take_array(a, kept.count + 1, sizeof *kept.items);
    kept.numbers = arena_take_array(a, kept.count + 1, sizeof *kept.numbers);
    for (size_t i = 0; i < kept.count; i++) {
        kept.items[i] = r->items[i];
        kept.numbers[i] = r->items[i]->number;
    }
    return kept;
}

void
reads_note_kept(struct reads *r, const struct noted *kept)
{
    if (r == NULL)
        return;
    for (size_t i = 0; i < kept->count; i++) {
        const uint32_t number = kept->numbers[i];
        if (reads_have(r, number))
            continue;
        if (number != 0 ? is_new(r, number) : is_asked_first(r, kept->items[i]))
            add(r, kept->items[i]);
    }
    keep_latest(r, kept->latest);
}

void
reads_note_question(struct reads *r, struct slice key, uint64_t answer)
{
    if (r == NULL || map_get_hashed(&r->asked, key, slice_digest(key, 0)) != NULL)
        return;
    struct entry *e = arena_take(r->arena, sizeof *e);
    entry_name(e, slice_string(r->arena, key));
    e->digest = answer;
    is_asked_first(r, e);
    add(r, e);
}

bool
reads_hold(const struct reads *r, struct slice key)
{
    for (size_t i = 0; i < r->count; i++)
        if (slice_is(key, r->items[i]->key))
            return true;
    return false;
}

const char *
reads_changed(const struct reads *r)
{
    return r->latest;
}
