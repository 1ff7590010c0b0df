#include "press/ledger.h"

#include <stdlib.h>
#include <string.h>

#include "version.h"

static const char ledger_magic[8] = "dariole";

/* bytes after another in growable memory; NULL when there is none */
static void *
block_grow(struct ledger_block *b, size_t more)
{
    if (b->room - b->used < more) {
        size_t room = b->used + more + b->room / 2 + 4096;
        void *bytes = realloc(b->bytes, room);
        if (bytes == NULL)
            return NULL;
        b->bytes = bytes;
        b->room = room;
    }
    void *at = (char *)b->bytes + b->used;
    b->used += more;
    return at;
}

void
ledger_begin(struct ledger *l)
{
    *l = (struct ledger){0};
    memcpy(l->head.magic, ledger_magic, sizeof ledger_magic);
    l->head.layout = LEDGER_LAYOUT;
    l->head.format = DARIOLE_FORMAT;
}

void
ledger_close(struct ledger *l)
{
    free(l->strings.bytes);
    free(l->reads.bytes);
    free(l->posts.bytes);
    free(l->outputs.bytes);
    free(l->keys.bytes);
    free(l->slots);
    free(l->marks);
    *l = (struct ledger){0};
}

size_t
ledger_post_count(const struct ledger *l)
{
    return l->posts.used / sizeof(struct ledger_post);
}

struct ledger_post *
ledger_post(const struct ledger *l, size_t i)
{
    return (struct ledger_post *)l->posts.bytes + i;
}

struct ledger_output *
ledger_output(const struct ledger *l, size_t i)
{
    return (struct ledger_output *)l->outputs.bytes + i;
}

size_t
ledger_key_count(const struct ledger *l)
{
    return l->keys.used / sizeof(struct ledger_key);
}

struct ledger_key *
ledger_key(const struct ledger *l, size_t i)
{
    return (struct ledger_key *)l->keys.bytes + i;
}

struct slice
ledger_string(const struct ledger *l, struct ledger_text t)
{
    return t.length == 0 ? SLICE("")
                         : (struct slice){(const char *)l->strings.bytes + t.at, t.length};
}

bool
ledger_add_string(struct ledger *l, struct slice s, struct ledger_text *out)
{
    *out = (struct ledger_text){0, 0};
    if (s.length == 0)
        return true;
    if (l->strings.used + s.length > UINT32_MAX)
        return false;
    size_t at = l->strings.used;
    char *to = block_grow(&l->strings, s.length);
    if (to == NULL)
        return false;
    memcpy(to, s.at, s.length);
    *out = (struct ledger_text){(uint32_t)at, (uint32_t)s.length};
    return true;
}

bool
ledger_add_outputs(struct ledger *l, size_t count, uint32_t *first)
{
    size_t at = l->outputs.used / sizeof(struct ledger_output);
    if (at + count > UINT32_MAX)
        return false;
    void *fresh = block_grow(&l->outputs, count * sizeof(struct ledger_output));
    if (fresh == NULL)
        return false;
    memset(fresh, 0, count * sizeof(struct ledger_output));
    *first = (uint32_t)at;
    return true;
}

bool
ledger_pattern(struct ledger *l, const char *pattern, uint32_t *number)
{
    for (uint32_t i = 0; i < l->head.pattern_count; i++)
        if (slice_is(ledger_string(l, l->head.patterns[i]), pattern)) {
            *number = i;
            return true;
        }
    if (l->head.pattern_count == PATTERNS_MOST)
        return false;
    *number = l->head.pattern_count;
    if (!ledger_add_string(l, slice_of(pattern), &l->head.patterns[*number]))
        return false;
    l->head.pattern_count++;
    return true;
}

void
ledger_take_posts(struct ledger *l, struct ledger_post *posts, size_t count)
{
    free(l->posts.bytes);
    l->posts = (struct ledger_block){posts, count * sizeof *posts, count * sizeof *posts};
}

/* the slots of keys, built anew with room for `count` */
static bool
build_slots(struct ledger *l, size_t count)
{
    size_t slots = 1024;
    while (slots < count * 2)
        slots *= 2;
    uint32_t *fresh = calloc(slots, sizeof *fresh);
    if (fresh == NULL)
        return false;
    for (size_t i = 0; i < ledger_key_count(l); i++) {
        size_t at = slice_digest(ledger_string(l, ledger_key(l, i)->key), 0) & (slots - 1);
        while (fresh[at] != 0)
            at = (at + 1) & (slots - 1);
        fresh[at] = (uint32_t)i + 1;
    }
    free(l->slots);
    l->slots = fresh;
    l->slot_count = slots;
    return true;
}

/* the number of a key, which is added when new; its digest is brought up to date */
static bool
intern(struct ledger *l, const struct entry *e, uint32_t *id)
{
    const struct slice key = {e->key, e->key_length};
    size_t mask = l->slot_count - 1, at = e->key_digest & mask;
    for (; l->slots[at] != 0; at = (at + 1) & mask) {
        struct ledger_key *k = ledger_key(l, l->slots[at] - 1);
        if (slice_equal(ledger_string(l, k->key), key)) {
            k->digest = e->digest;
            *id = l->slots[at] - 1;
            return true;
        }
    }
    struct ledger_text text;
    if (!ledger_add_string(l, key, &text))
        return false;
    struct ledger_key *k = block_grow(&l->keys, sizeof *k);
    if (k == NULL)
        return false;
    *k = (struct ledger_key){text, e->digest};
    *id = (uint32_t)ledger_key_count(l) - 1;
    l->slots[at] = *id + 1;
    return true;
}

/* room for a mark for each key and for `more`; false when there is no memory */
static bool
widen_marks(struct ledger *l, size_t more)
{
    const size_t words = (ledger_key_count(l) + more) / 64 + 1;
    if (l->mark_room >= words)
        return true;
    const size_t room = words * 2;
    uint64_t *marks = realloc(l->marks, room * sizeof *marks);
    if (marks == NULL)
        return false;
    memset(marks + l->mark_room, 0, (room - l->mark_room) * sizeof *marks);
    l->marks = marks;
    l->mark_room = room;
    return true;
}

static inline void
mark(struct ledger *l, uint32_t id)
{
    l->marks[id / 64] |= UINT64_C(1) << id % 64;
}

/* marks the key of each that was read */
static bool
mark_reads(struct ledger *l, const struct reads *r)
{
    for (size_t i = 0; i < r->count; i++) {
        uint32_t id;
        if (!intern(l, r->items[i], &id))
            return false;
        mark(l, id);
    }
    return true;
}

static unsigned char *
put_number(unsigned char *to, uint32_t n)
{
    for (; n >= 0x80; n >>= 7)
        *to++ = (unsigned char)(n | 0x80);
    *to++ = (unsigned char)n;
    return to;
}

static const unsigned char *
get_number(const unsigned char *from, const unsigned char *end, uint32_t *n)
{
    *n = 0;
    for (unsigned shift = 0; from < end && shift < 35; shift += 7) {
        *n |= (uint32_t)(*from & 0x7f) << shift;
        if ((*from++ & 0x80) == 0)
            return from;
    }
    return NULL;
}

struct packing {
    unsigned char *to;
    uint32_t next, from, end; /* behind the last run that was put; the run at hand */
};

/* the gap to the run, and how many follow its first */
static void
put_run(struct packing *p)
{
    if (p->end == p->from)
        return;
    p->to = put_number(p->to, p->from - p->next);
    p->to = put_number(p->to, p->end - p->from - 1);
    p->next = p->end;
}

/* the runs of marks, which are taken away, packed into room for each alone; where they end */
static unsigned char *
pack_marks(struct ledger *l, unsigned char *to)
{
    struct packing p = {to, 0, 0, 0};
    const size_t words = ledger_key_count(l) / 64 + 1;
    for (size_t w = 0; w < words; w++) {
        uint64_t bits = l->marks[w];
        l->marks[w] = 0;
        for (uint32_t at = (uint32_t)w * 64; bits != 0;) {
            const uint32_t gap = (uint32_t)__builtin_ctzll(bits);
            bits >>= gap;
            at += gap;
            const uint32_t run = bits == UINT64_MAX ? 64 : (uint32_t)__builtin_ctzll(~bits);
            if (at != p.end) {
                put_run(&p);
                p.from = at;
            }
            p.end = at += run;
            bits = run < 64 ? bits >> run : 0;
        }
    }
    put_run(&p);
    return p.to;
}

bool
ledger_add_reads(struct ledger *l, const struct reads *r, struct ledger_post *p)
{
    const size_t needed = ledger_key_count(l) + r->count, at = l->reads.used;
    if (r->count == 0)
        return true;
    if ((l->slots == NULL || needed * 2 > l->slot_count) && !build_slots(l, needed * 2))
        return false;
    unsigned char *begin = block_grow(&l->reads, r->count * 10 + 1);
    if (begin == NULL)
        return false;
    const bool good = widen_marks(l, r->count) && mark_reads(l, r);
    if (good) {
        p->reads = at;
        p->reads_length = (uint32_t)(pack_marks(l, begin) - begin);
    } else if (l->mark_room > 0) {
        memset(l->marks, 0, l->mark_room * sizeof *l->marks);
    }
    l->reads.used = at + (good ? p->reads_length : 0);
    return good;
}

void
ledger_each_read(const struct ledger *l, const struct ledger_post *p,
                 bool (*each)(void *ctx, uint32_t key), void *ctx)
{
    const unsigned char *at = (const unsigned char *)l->reads.bytes + p->reads;
    const unsigned char *end = at + p->reads_length;
    const uint64_t count = ledger_key_count(l);
    uint64_t next = 0;
    uint32_t gap, more;
    while (at != NULL && at < end) {
        if ((at = get_number(at, end, &gap)) == NULL || (at = get_number(at, end, &more)) == NULL)
            return;
        next += gap;
        if (next + more >= count)
            return;
        for (uint32_t i = 0; i <= more; i++)
            if (!each(ctx, (uint32_t)next + i))
                return;
        next += (uint64_t)more + 1;
    }
}
