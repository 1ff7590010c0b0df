#include "press/gather.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define XXH_STATIC_LINKING_ONLY /* its state on the stack */
#include <xxhash.h>

#include "press/workers.h"

/* which posts, in which order */
struct sequence {
    uint32_t *all, *published, *newest; /* numbers of posts; UINT32_MAX: the tables' findings */
    size_t all_count, published_count, newest_count;
    struct slice changed; /* latest */
};

struct joining {
    struct press_state *press;
    const struct sequence *sequence;
    const struct gathered_output *file;
    struct piece_reader reader;
    const uint32_t *posts;
    size_t count;
    int fd;
    XXH3_state_t digest;
    uint64_t bytes;
    struct failure failure;
    bool failed;
    size_t held;
    char buffer[65536];
};

struct gathering_work {
    struct press_state *press;
    struct sequence sequence;
};

static const struct ledger_post *
post_at(const struct press_state *p, uint32_t number)
{
    return number == UINT32_MAX ? &p->ledger.head.of_tables : &p->posts[number];
}

/* newest first; of one day by slug, so that the order is the same everywhere */
struct dated {
    struct slice published, slug;
    uint32_t number;
};

static int
newer(const void *left, const void *right)
{
    const struct dated *a = left, *b = right;
    int order = slice_order(b->published, a->published);
    return order != 0 ? order : slice_order(a->slug, b->slug);
}

static void
build_sequence(struct press_state *p, struct sequence *s)
{
    size_t room = p->plan.count + 1;
    *s = (struct sequence){.changed = SLICE("")};
    s->all = arena_take_array(p->session->arena, room, sizeof *s->all);
    s->published = arena_take_array(p->session->arena, room, sizeof *s->published);
    s->all[s->all_count++] = UINT32_MAX;
    for (size_t i = 0; i < p->plan.count; i++) {
        if (p->plan.items[i].gone)
            continue;
        s->all[s->all_count++] = (uint32_t)i;
        if (!state_published(&p->posts[i]))
            continue;
        s->published[s->published_count++] = (uint32_t)i;
        struct slice changed = ledger_string(&p->ledger, p->posts[i].changed);
        if (slice_order(changed, s->changed) > 0)
            s->changed = changed;
    }
    struct dated *dated =
        arena_take_array(p->session->arena, s->published_count + 1, sizeof *dated);
    for (size_t i = 0; i < s->published_count; i++) {
        const struct ledger_post *post = &p->posts[s->published[i]];
        dated[i] = (struct dated){ledger_string(&p->ledger, post->published),
                                  ledger_string(&p->ledger, post->slug), s->published[i]};
    }
    if (s->published_count > 1)
        qsort(dated, s->published_count, sizeof *dated, newer);
    while (s->newest_count < s->published_count &&
           s->newest_count < p->session->tables->site.feed_entries &&
           dated[s->newest_count].published.length > 0)
        s->newest_count++;
    s->newest = arena_take_array(p->session->arena, s->newest_count + 1, sizeof *s->newest);
    for (size_t i = 0; i < s->newest_count; i++)
        s->newest[i] = dated[i].number;
}

static void
choose(struct joining *j)
{
    const struct sequence *s = j->sequence;
    switch (j->file->order) {
    case ORDER_ALL:
        j->posts = s->all;
        j->count = s->all_count;
        break;
    case ORDER_PUBLISHED:
        j->posts = s->published;
        j->count = s->published_count;
        break;
    case ORDER_NEWEST:
        j->posts = s->newest;
        j->count = s->newest_count;
        break;
    case ORDER_NONE:
        break;
    }
}

/* one digest of all that the file is joined from; never 0 */
static uint64_t
sources_of(const struct joining *j)
{
    const struct press_state *p = j->press;
    uint64_t with[3] = {0, p->ledger.head.settings, j->count};
    if (j->file->with == WITH_SITE)
        with[0] = p->session->tables->site.entry.digest;
    if (j->file->with == WITH_TABLES)
        with[0] = p->session->tables->digest;
    if (j->file->bytes != NULL)
        return slice_digest(slice_of(j->file->bytes), 1) | 1;
    XXH3_state_t state;
    XXH3_64bits_reset(&state);
    XXH3_64bits_update(&state, with, sizeof with);
    XXH3_64bits_update(&state, j->sequence->changed.at, j->sequence->changed.length);
    for (size_t i = 0; i < j->count; i++) {
        const struct ledger_piece *piece = &post_at(p, j->posts[i])->pieces[j->file->kind];
        uint64_t parts[2] = {piece->check, piece->length};
        XXH3_64bits_update(&state, parts, sizeof parts);
    }
    return XXH3_64bits_digest(&state) | 1;
}

static struct slice
give_piece(void *ctx, size_t i, enum piece_of_record kind)
{
    struct joining *j = ctx;
    struct slice out = SLICE("");
    if (!j->failed &&
        !pieces_read(&j->reader, &post_at(j->press, j->posts[i])->pieces[kind], &out, &j->failure))
        j->failed = true;
    return out;
}

static bool
put_held(struct joining *j)
{
    if (!j->failed && !atomic_file_put(j->fd, j->buffer, j->held)) {
        failure_say_errno(&j->failure, "%s", j->file->name);
        j->failed = true;
    }
    j->held = 0;
    return !j->failed;
}

static bool
take_bytes(void *ctx, struct slice bytes)
{
    struct joining *j = ctx;
    XXH3_64bits_update(&j->digest, bytes.at, bytes.length);
    j->bytes += bytes.length;
    while (bytes.length > 0 && !j->failed) {
        size_t n = sizeof j->buffer - j->held;
        if (n > bytes.length)
            n = bytes.length;
        memcpy(j->buffer + j->held, bytes.at, n);
        j->held += n;
        bytes = slice_part(bytes, n, bytes.length);
        if (j->held == sizeof j->buffer)
            put_held(j);
    }
    return !j->failed;
}

static bool
join(struct joining *j, struct arena *a)
{
    const struct gathering g = {j->count, give_piece, j, j->sequence->changed};
    const struct outlet out = {take_bytes, j};
    if (j->file->write == NULL)
        return take_bytes(j, slice_of(j->file->bytes));
    return j->file->write(a, j->press->session->tables, &g, out);
}

static void
gathered_placed(void *ctx, uint64_t tag, const struct stat *s, const struct failure *f)
{
    struct press_state *p = ctx;
    struct ledger_gathered *g = &p->ledger.head.gathered[tag];
    if (s == NULL) {
        *g = (struct ledger_gathered){0, 0, 0};
        state_fail(p, f, false);
        return;
    }
    g->stamp = atomic_file_stamp(s);
    p->last_placed = atomic_file_when(s);
    p->ledger.head.gathered_unsure |= s->st_ctim.tv_nsec == 0;
}

/* what was joined takes its place, or is dropped where the file holds it already; nothing at all
 * means no file */
static bool
finish(struct joining *j, unsigned temporary, uint64_t sources, struct ledger_gathered *g)
{
    struct press_state *p = j->press;
    struct atomic_file_batch *batch = &p->gathered;
    int folder = p->session->folders[j->file->folder];
    uint64_t digest = XXH3_64bits_digest(&j->digest), there;
    struct stat s;
    bool exists = fstatat(folder, j->file->name, &s, AT_SYMLINK_NOFOLLOW) == 0;
    if (j->bytes == 0 && exists)
        unlinkat(folder, j->file->name, 0);
    bool same = exists && S_ISREG(s.st_mode) && (uint64_t)s.st_size == j->bytes &&
                atomic_file_digest(folder, j->file->name, UINT64_MAX, &there) && there == digest;
    if (same || j->bytes == 0) {
        atomic_file_drop(folder, temporary);
        *g = (struct ledger_gathered){j->bytes == 0 ? 0 : atomic_file_stamp(&s), digest, sources};
        return true;
    }
    *g = (struct ledger_gathered){0, digest, sources};
    pthread_mutex_lock(&p->lock);
    bool good = atomic_file_wait(batch, folder, temporary, j->file->name, exists,
                                 (uint64_t)(j->file - gathered_outputs), &j->failure);
    pthread_mutex_unlock(&p->lock);
    return good;
}

static bool
gathered_stands(struct press_state *p, size_t i)
{
    const struct gathered_output *file = &gathered_outputs[i];
    struct ledger_gathered *g = &p->ledger.head.gathered[i];
    struct stat s;
    uint64_t digest;
    if (fstatat(p->session->folders[file->folder], file->name, &s, AT_SYMLINK_NOFOLLOW) != 0)
        return g->stamp == 0 && g->sources != 0 && errno == ENOENT;
    if (!S_ISREG(s.st_mode))
        return false;
    uint64_t stamp = atomic_file_stamp(&s);
    if (g->stamp == stamp && p->ledger.head.gathered_unsure == 0)
        return true;
    if (!atomic_file_digest(p->session->folders[file->folder], file->name, UINT64_MAX, &digest) ||
        g->sources == 0 || digest != g->digest)
        return false;
    if (stamp != g->stamp || p->ledger.head.gathered_unsure != 0)
        p->touched = true;
    g->stamp = stamp;
    return true;
}

bool
gather_stands(struct press_state *p)
{
    bool all = p->ledger.head.gathered_count == gathered_output_count;
    for (size_t i = 0; all && i < gathered_output_count; i++)
        all = gathered_stands(p, i);
    return all;
}

/* joins file i, where its sources changed or it is not as it was left */
static void
gather_one(void *ctx, struct worker *w, size_t i)
{
    struct gathering_work *work = ctx;
    struct press_state *p = work->press;
    struct joining joining, *j = &joining; /* the digest's state must lie on 64 bytes */
    struct ledger_gathered *g = &p->ledger.head.gathered[i];
    memset(j, 0, sizeof *j);
    j->press = p;
    j->sequence = &work->sequence;
    j->file = &gathered_outputs[i];
    j->reader.pieces = &p->pieces;
    XXH3_64bits_reset(&j->digest);
    choose(j);
    uint64_t sources = sources_of(j);
    if (sources == g->sources && gathered_stands(p, i))
        return;
    unsigned temporary;
    pthread_mutex_lock(&p->lock);
    j->fd = atomic_file_begin(&p->gathered, p->session->folders[j->file->folder], &temporary,
                              &j->failure);
    pthread_mutex_unlock(&p->lock);
    bool good = j->fd >= 0;
    if (good) {
        good = join(j, w->arena) && put_held(j);
        if (close(j->fd) != 0 && good)
            good = failure_say_errno(&j->failure, "%s", j->file->name);
        if (!good)
            atomic_file_drop(p->session->folders[j->file->folder], temporary);
        good = good && finish(j, temporary, sources, g);
    }
    pieces_reader_close(&j->reader);
    if (!good)
        state_fail(p, &j->failure, false);
}

static void
gather_exhausted(void *ctx, size_t i)
{
    struct gathering_work *work = ctx;
    state_exhausted(work->press, gathered_outputs[i].name);
}

bool
gather_outputs(struct press_state *p, bool *stopped, struct failure *f)
{
    struct gathering_work g = {.press = p};
    build_sequence(p, &g.sequence);
    p->ledger.head.gathered_count = (uint32_t)gathered_output_count;
    const struct work work = {.count = gathered_output_count,
                              .at_once = 1,
                              .each = gather_one,
                              .exhausted = gather_exhausted,
                              .ctx = &g};
    return workers_run(&work, p->session->options->threads, stopped, f);
}

bool
gather_place(struct press_state *p, bool flushed, struct failure *f)
{
    const struct atomic_file_teller teller = {gathered_placed, p};
    return atomic_file_commit(&p->gathered, flushed, &teller, f);
}
