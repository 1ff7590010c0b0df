#include "press/ledger.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define XXH_STATIC_LINKING_ONLY /* its state on the stack */
#include <xxhash.h>

#include "press/atomic_file.h"
#include "press/beneath.h"
#include "press/outputs.h"
#include "version.h"
#include "press/ledger_file.h"

struct part {
    struct ledger_block *block;
    uint64_t *size; /* in the head: bytes */
};

/* of a hundred thousand posts it is a twentieth of this */
enum { PARTS = 5, LEDGER_BYTES_MOST = 1 << 30 };

static void
read_parts_of(struct ledger *l, struct part parts[PARTS])
{
    parts[0] = (struct part){&l->posts, &l->head.posts};
    parts[1] = (struct part){&l->outputs, &l->head.outputs};
    parts[2] = (struct part){&l->keys, &l->head.keys};
    parts[3] = (struct part){&l->reads, &l->head.reads};
    parts[4] = (struct part){&l->strings, &l->head.strings};
}

/* reads exactly this much; 0 not enough there, -1 the machine failed */
static int
get(int fd, void *to, size_t length)
{
    char *at = to;
    while (length > 0) {
        ssize_t n = read(fd, at, length);
        if (n < 0 && errno == EINTR)
            continue;
        if (n <= 0)
            return n < 0 ? -1 : 0;
        at += n;
        length -= (size_t)n;
    }
    return 1;
}

static bool
text_lies_in(const struct ledger *l, struct ledger_text t)
{
    return t.length == 0 || (uint64_t)t.at + t.length <= l->head.strings;
}

static bool
pieces_lie_in(const struct ledger *l, const struct ledger_post *p)
{
    for (int k = 0; k < RECORD_PIECES; k++)
        if (p->pieces[k].at > l->head.pieces_end ||
            p->pieces[k].length > l->head.pieces_end - p->pieces[k].at)
            return false;
    return true;
}

/* every number that points into a section does, and every name is one that a press could write */
static bool
sound(const struct ledger *l)
{
    const struct ledger_head *h = &l->head;
    if (h->posts % sizeof(struct ledger_post) != 0 ||
        h->outputs % sizeof(struct ledger_output) != 0 ||
        h->keys % sizeof(struct ledger_key) != 0 || h->pattern_count > PATTERNS_MOST ||
        h->gathered_count > GATHERED_MOST || !pieces_lie_in(l, &h->of_tables))
        return false;
    for (uint32_t i = 0; i < h->pattern_count; i++)
        if (!text_lies_in(l, h->patterns[i]) || !outputs_pattern(ledger_string(l, h->patterns[i])))
            return false;
    for (size_t i = 0; i < ledger_key_count(l); i++)
        if (!text_lies_in(l, ledger_key(l, i)->key))
            return false;
    uint64_t outputs = h->outputs / sizeof(struct ledger_output);
    for (size_t i = 0; i < ledger_post_count(l); i++) {
        const struct ledger_post *p = ledger_post(l, i);
        if (!text_lies_in(l, p->path) || !text_lies_in(l, p->slug) ||
            !text_lies_in(l, p->published) || !text_lies_in(l, p->changed) ||
            !text_lies_in(l, p->rival) || !text_lies_in(l, p->picture) || p->reads > h->reads ||
            p->reads_length > h->reads - p->reads ||
            (uint64_t)p->output + p->output_count > outputs || p->state > POST_FAILED ||
            !(p->slug.length == 0 || outputs_slug(ledger_string(l, p->slug))) ||
            !pieces_lie_in(l, p))
            return false;
    }
    for (uint64_t i = 0; i < outputs; i++)
        if (ledger_output(l, i)->pattern >= h->pattern_count)
            return false;
    return true;
}

/* 1 read, 0 not there or not whole, -1 the machine failed */
static int
load_from(struct ledger *l, int fd, struct failure *f)
{
    struct stat s;
    uint64_t check;
    int got = fstat(fd, &s) != 0 ? -1 : get(fd, &check, sizeof check);
    if (got == 1)
        got = get(fd, &l->head, sizeof l->head);
    if (got != 1)
        return got;
    if (memcmp(l->head.magic, "dariole", 8) != 0 || l->head.layout != LEDGER_LAYOUT)
        return 0;
    struct part parts[PARTS];
    read_parts_of(l, parts);
    XXH3_state_t state;
    XXH3_64bits_reset(&state);
    XXH3_64bits_update(&state, &l->head, sizeof l->head);
    uint64_t left = (uint64_t)s.st_size - sizeof check - sizeof l->head;
    if (left > LEDGER_BYTES_MOST)
        return 0;
    for (int i = 0; i < PARTS; i++) {
        size_t size = (size_t)*parts[i].size;
        if (*parts[i].size > left)
            return 0;
        left -= size;
        if (size == 0)
            continue;
        void *bytes = malloc(size);
        if (bytes == NULL) {
            failure_say(f, "out of memory");
            return -1;
        }
        *parts[i].block = (struct ledger_block){bytes, size, size};
        if ((got = get(fd, bytes, size)) != 1)
            return got;
        XXH3_64bits_update(&state, bytes, size);
    }
    if (left != 0 || XXH3_64bits_digest(&state) != check || !sound(l))
        return 0;
    return 1;
}

bool
ledger_load(struct ledger *l, int folder, const char *name, bool *found, struct failure *f)
{
    ledger_begin(l);
    *found = false;
    struct stat s;
    int fd = beneath_open_plain(folder, name, O_RDONLY, &s);
    if (fd < 0 && (errno == ENOENT || errno == EINVAL))
        return true;
    f->text[0] = '\0';
    int got = fd < 0 ? -1 : load_from(l, fd, f);
    if (got < 0 && f->text[0] == '\0')
        failure_say_errno(f, "the ledger (.dariole/%s) cannot be read", name);
    if (fd >= 0)
        close(fd);
    *found = got == 1;
    if (got != 1) {
        ledger_close(l);
        ledger_begin(l);
    }
    return got >= 0;
}

/* copies what posts, patterns and keys still use; only called when much is unused */
static bool
copy_texts(const struct ledger *from, struct ledger *to)
{
    bool good = true;
    for (size_t i = 0; good && i < ledger_post_count(to); i++) {
        struct ledger_post *p = ledger_post(to, i);
        struct ledger_text *texts[] = {&p->path,    &p->slug,  &p->published,
                                       &p->changed, &p->rival, &p->picture};
        for (size_t t = 0; good && t < sizeof texts / sizeof *texts; t++)
            good = ledger_add_string(to, ledger_string(from, *texts[t]), texts[t]);
    }
    for (uint32_t i = 0; good && i < to->head.pattern_count; i++)
        good =
            ledger_add_string(to, ledger_string(from, to->head.patterns[i]), &to->head.patterns[i]);
    return good;
}

struct renumbering {
    const struct ledger *from;
    struct reads reads;
};

static bool
copy_read(void *ctx, uint32_t key)
{
    struct renumbering *r = ctx;
    if (key >= ledger_key_count(r->from))
        return true;
    const struct ledger_key *k = ledger_key(r->from, key);
    struct entry *e = arena_take(r->reads.arena, sizeof *e);
    struct slice text = ledger_string(r->from, k->key);
    reads_entry_name(e, slice_string(r->reads.arena, text));
    e->digest = k->digest;
    reads_note(&r->reads, e);
    return true;
}

static bool
copy_reads(const struct ledger *from, struct ledger *to, struct arena *a)
{
    for (size_t i = 0; i < ledger_post_count(to); i++) {
        struct renumbering r = {from, reads_new(a)};
        struct ledger_post *p = ledger_post(to, i);
        ledger_each_read(from, p, copy_read, &r);
        if (!ledger_add_reads(to, &r.reads, p))
            return false;
        arena_reset(a);
    }
    return true;
}

static bool
copy_outputs(const struct ledger *from, struct ledger *to)
{
    for (size_t i = 0; i < ledger_post_count(to); i++) {
        struct ledger_post *p = ledger_post(to, i);
        uint32_t first;
        if (!ledger_add_outputs(to, p->output_count, &first))
            return false;
        for (uint32_t o = 0; o < p->output_count; o++)
            *ledger_output(to, first + o) = *ledger_output(from, p->output + o);
        p->output = first;
    }
    return true;
}

/* bytes in use, of strings, reads and outputs together */
static size_t
used_bytes(const struct ledger *l)
{
    size_t used = 0;
    for (size_t i = 0; i < ledger_post_count(l); i++) {
        const struct ledger_post *p = ledger_post(l, i);
        used += p->path.length + p->slug.length + p->published.length + p->changed.length +
                p->rival.length + p->picture.length + p->reads_length +
                p->output_count * sizeof(struct ledger_output);
    }
    return used;
}

/* the ledger without what no post uses; left as it is when memory does not allow that */
static void
tidy(struct ledger *l)
{
    size_t held = l->strings.used + l->reads.used + l->outputs.used;
    if (held < (size_t)64 << 10 || held / 3 < used_bytes(l))
        return;
    struct ledger to = {.head = l->head};
    size_t bytes = l->posts.used;
    struct ledger_post *posts = malloc(bytes > 0 ? bytes : 1);
    struct arena *a = arena_open((size_t)64 << 10);
    if (posts != NULL) {
        if (bytes > 0)
            memcpy(posts, l->posts.bytes, bytes);
        ledger_take_posts(&to, posts, bytes / sizeof *posts);
    }
    if (posts != NULL && a != NULL && setjmp(*arena_guard(a)) == 0 && copy_texts(l, &to) &&
        copy_reads(l, &to, a) && copy_outputs(l, &to)) {
        struct ledger before = *l;
        *l = to;
        to = before;
    }
    arena_close(a);
    ledger_close(&to);
}

static bool
put_parts(struct ledger *l, int fd)
{
    struct part parts[PARTS];
    read_parts_of(l, parts);
    XXH3_state_t state;
    XXH3_64bits_reset(&state);
    for (int i = 0; i < PARTS; i++)
        *parts[i].size = parts[i].block->used;
    XXH3_64bits_update(&state, &l->head, sizeof l->head);
    for (int i = 0; i < PARTS; i++)
        if (parts[i].block->used > 0)
            XXH3_64bits_update(&state, parts[i].block->bytes, parts[i].block->used);
    uint64_t check = XXH3_64bits_digest(&state);
    if (!atomic_file_put(fd, &check, sizeof check) ||
        !atomic_file_put(fd, &l->head, sizeof l->head))
        return false;
    for (int i = 0; i < PARTS; i++)
        if (!atomic_file_put(fd, parts[i].block->bytes, parts[i].block->used))
            return false;
    return fsync(fd) == 0;
}

bool
ledger_save(struct ledger *l, int folder, const char *name, struct failure *f)
{
    tidy(l);
    struct atomic_file_batch b = {.step = 1};
    unsigned temporary;
    int fd = atomic_file_begin(&b, folder, &temporary, f);
    if (fd < 0)
        return false;
    bool good = put_parts(l, fd);
    if (!good)
        failure_say_errno(f, "the ledger cannot be written");
    if (close(fd) != 0 && good)
        good = failure_say_errno(f, "the ledger cannot be written");
    good = good && atomic_file_wait(&b, folder, temporary, name, true, 0, f);
    if (!good)
        atomic_file_drop(folder, temporary);
    good = good && atomic_file_commit(&b, true, &atomic_file_no_teller, f);
    atomic_file_batch_close(&b);
    return good;
}
