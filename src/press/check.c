#include "press/check.h"

#include <errno.h>
#include <fcntl.h>
#include <string.h>

#include "press/picture_file.h"
#include "press/post_file.h"
#include "press/workers.h"
#include "read/post.h"

/* whether an output is as the ledger says; its stamp is brought up to date */
static bool
output_stands(struct press_state *p, const struct ledger_post *post, uint32_t i)
{
    char name[OUTPUT_NAME_MOST];
    struct stat s;
    uint64_t digest;
    struct ledger_output *o = ledger_output(&p->ledger, post->output + i);
    enum output_folder folder;
    if (!state_output_name(p, ledger_string(&p->ledger, post->slug), o->pattern, name, &folder) ||
        fstatat(p->session->folders[folder], name, &s, AT_SYMLINK_NOFOLLOW) != 0 ||
        !S_ISREG(s.st_mode))
        return false;
    uint64_t stamp = atomic_file_stamp(&s);
    if (stamp == o->stamp && post->unsure == 0)
        return true;
    if (!atomic_file_digest(p->session->folders[folder], name, OUTPUT_BYTES_MOST, &digest) ||
        digest != o->digest)
        return false;
    o->stamp = stamp;
    return true;
}

/* whether the post's bytes are as the ledger says; its stamp is brought up to date */
static bool
post_stands(struct press_state *p, const struct planned *planned, struct ledger_post *post,
            const struct stat *s)
{
    uint64_t digest, stamp = atomic_file_stamp(s);
    if (stamp == post->stamp && post->unsure == 0)
        return true;
    bool fresh = atomic_file_fresh(s);
    if (!atomic_file_digest(p->session->content, planned->path, POST_BYTES_MOST + 1, &digest) ||
        digest != post->digest)
        return false;
    post->stamp = stamp;
    post->unsure = fresh;
    return true;
}

/* whether the picture is as it was, or missing as it was; its stamp is brought up to date */
static bool
picture_stands(struct press_state *p, const struct planned *planned, bool unsure,
               struct ledger_post *post)
{
    char path[PICTURE_PATH_MOST];
    struct stat s;
    uint64_t digest;
    if (post->picture.length == 0)
        return true;
    enum picture_found found = picture_file_find(
        p->session->content, planned->path, ledger_string(&p->ledger, post->picture), path, &s);
    uint64_t stamp = picture_file_stamp(found, &s);
    if (stamp == post->picture_stamp && (!unsure || found != PICTURE_FOUND))
        return true;
    bool fresh = atomic_file_fresh(&s);
    if (found != PICTURE_FOUND || post->picture_stamp <= PICTURE_STAMP_OUTSIDE ||
        !picture_file_digest(p->session->content, path, &s, &digest) ||
        digest != post->picture_digest)
        return false;
    post->picture_stamp = stamp;
    post->unsure |= fresh;
    return true;
}

static void
check_post(void *ctx, struct worker *w, size_t i)
{
    (void)w;
    struct press_state *p = ctx;
    struct planned *planned = &p->plan.items[i];
    struct ledger_post *post = &p->posts[i];
    struct stat s;
    if (planned->before == PLAN_NONE)
        return;
    struct ledger_post before = *ledger_post(&p->ledger, planned->before);
    *post = before;
    bool stat_failed = !post_file_stat(p->session->content, planned->path, &s);
    planned->gone =
        stat_failed ? errno == ENOENT || errno == ENOTDIR || errno == ELOOP : !S_ISREG(s.st_mode);
    if (planned->gone || planned->why != WHY_NOT)
        return;
    if (post->state == POST_FAILED) {
        planned->why = WHY_AGAIN;
        return;
    }
    if (stat_failed || !post_stands(p, planned, post, &s)) {
        planned->why = WHY_POST;
        return;
    }
    if (!picture_stands(p, planned, before.unsure != 0, post)) {
        planned->why = WHY_PICTURE;
        return;
    }
    for (uint32_t o = 0; o < post->output_count; o++)
        if (!output_stands(p, &before, o)) {
            planned->why = WHY_OUTPUT;
            return;
        }
    if (before.stamp != post->stamp || before.picture_stamp != post->picture_stamp ||
        before.unsure != 0)
        state_touch(p);
}

static void
check_exhausted(void *ctx, size_t i)
{
    struct press_state *p = ctx;
    p->plan.items[i].why = WHY_AGAIN;
}

bool
check_posts(struct press_state *p, bool *stopped, struct failure *f)
{
    struct work work = {.count = p->plan.count,
                        .at_once = 128,
                        .each = check_post,
                        .exhausted = check_exhausted,
                        .ctx = p};
    return workers_run(&work, p->session->options->threads, stopped, f);
}

struct finding_of_change {
    const unsigned char *changed;
    size_t count;
    bool found;
};

static bool
is_changed(void *ctx, uint32_t key)
{
    struct finding_of_change *c = ctx;
    c->found = key < c->count && c->changed[key] != 0;
    return !c->found;
}

/* the posts that read a key which changed are to be made again */
static void
mark_readers(struct press_state *p, enum why why)
{
    for (size_t i = 0; i < p->plan.count; i++) {
        struct finding_of_change c = {p->changed, p->changed_count, false};
        struct planned *planned = &p->plan.items[i];
        if (planned->why != WHY_NOT || planned->gone)
            continue;
        ledger_each_read(&p->ledger, &p->posts[i], is_changed, &c);
        if (c.found)
            planned->why = (uint8_t)why;
    }
}

bool
check_tables(struct press_state *p, struct failure *f)
{
    p->changed_count = ledger_key_count(&p->ledger);
    p->changed = arena_take_array(p->session->arena, p->changed_count + 1, 1);
    struct arena *scratch = arena_open((size_t)64 << 10);
    if (scratch == NULL)
        return failure_say(f, "out of memory");
    bool any = false;
    if (setjmp(*arena_guard(scratch)) == 0) {
        struct arena *before = arena_lend(scratch);
        any = plan_ask(&p->ledger, p->session->tables, scratch, p->changed);
        arena_lend(before);
    } else {
        arena_lend(p->session->arena);
        arena_close(scratch);
        return failure_say(f, "out of memory");
    }
    arena_close(scratch);
    if (any)
        mark_readers(p, WHY_ENTRY);
    p->dirty = true;
    return true;
}

/* whether every post is as the ledger says, so that nobody's members changed */
static bool
all_stand(const struct press_state *p)
{
    bool stand = p->plan.removed == 0;
    for (size_t i = 0; stand && i < p->plan.count; i++)
        stand = !p->plan.items[i].gone &&
                (p->plan.items[i].why == WHY_NOT || p->plan.items[i].why == WHY_ENTRY);
    return stand;
}

/* what the keys that ask for other posts are answered now: "post:SLUG" and "link:NAME" */
static uint64_t
ask_post(struct post_asking *asking, struct slice key)
{
    const struct slice name = slice_part(key, strlen("post:"), key.length);
    struct post_bytes found;
    struct slice slug;
    if (slice_begins(key, "link:"))
        return post_index_settle(asking, name, &slug) ? post_finder_digest(slug) : 0;
    return post_index_find(asking, name, &found) ? post_finder_digest(found.bytes) : 0;
}

static bool
ask_members(struct press_state *p, struct arena *scratch)
{
    struct post_asking asking = {&p->index, scratch};
    bool any = false;
    for (size_t i = 0; i < p->changed_count; i++) {
        struct ledger_key *k = ledger_key(&p->ledger, i);
        const struct slice key = ledger_string(&p->ledger, k->key);
        if (!post_finder_is_key(key))
            continue;
        const uint64_t now = ask_post(&asking, key);
        p->changed[i] = now != k->digest;
        any = any || p->changed[i];
        k->digest = now;
        arena_reset(scratch);
    }
    return any;
}

bool
check_members(struct press_state *p, struct failure *f)
{
    if (p->anew || all_stand(p))
        return true;
    if (p->changed == NULL) { /* else it tells which entries of the tables changed */
        p->changed_count = ledger_key_count(&p->ledger);
        p->changed = arena_take_array(p->session->arena, p->changed_count + 1, 1);
    }
    struct arena *scratch = arena_open((size_t)64 << 10);
    if (scratch == NULL)
        return failure_say(f, "out of memory");
    const bool good = setjmp(*arena_guard(scratch)) == 0;
    if (good && ask_members(p, scratch)) {
        mark_readers(p, WHY_MEMBER);
        p->dirty = true;
    }
    arena_close(scratch);
    return good || failure_say(f, "out of memory");
}
