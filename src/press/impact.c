#define _XOPEN_SOURCE 700 /* realpath */
#include "compile/compile.h"
#include "press/impact.h"

#include <errno.h>
#include <fcntl.h>
#include <pthread.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/list.h"
#include "press/post_file.h"
#include "press/post_index.h"
#include "press/plan.h"
#include "press/workers.h"
#include "tables/table_ask.h"
#include "write/json_writer.h"
#include "press/impact_post.h"

struct comparing {
    const struct impact_options *options;
    const struct tables *now, *then;
    int content;
    struct post_index index;
    struct plan plan;
    char shown[256];
    struct impact_change *changes; /* by post */
    bool *changed;
    struct impact_row *rows; /* by post; path empty: it cannot be read */
    pthread_mutex_t lock;    /* over what follows */
    size_t posts, failures;
    struct failure first_failure;
};

static void
note_failure(struct comparing *c, const struct failure *f)
{
    pthread_mutex_lock(&c->lock);
    if (c->failures++ == 0)
        c->first_failure = *f;
    pthread_mutex_unlock(&c->lock);
}

/* keys of what was read that the other tables answer differently */
static void
add_entries(struct arena *a, const struct reads *reads, const struct tables *other,
            struct map *entries)
{
    for (size_t i = 0; i < reads->count; i++) {
        const struct entry *e = reads->items[i];
        const struct slice key = slice_of(e->key);
        if (!post_finder_is_key(key) && tables_ask(other, a, key) != e->digest)
            map_put(entries, key, (void *)(uintptr_t)e);
    }
}

static bool
keep(struct slice from, struct slice *to)
{
    char *bytes = malloc(from.length + 1);
    if (bytes == NULL)
        return false;
    memcpy(bytes, from.at, from.length);
    bytes[from.length] = '\0';
    *to = (struct slice){bytes, from.length};
    return true;
}

static double
tightest_share(const struct outcome *o)
{
    const struct phase_stand *p = &o->phases[o->tables->site.phase];
    return p->tightest >= 0 ? p->groups[p->tightest].share.mid : 0;
}

static enum standing
standing_now(const struct outcome *o)
{
    return o->post.readable ? o->phases[o->tables->site.phase].standing : STANDING_UNKNOWN;
}

/* for the page that shows all posts; after NULL: as before */
static void
keep_row(struct comparing *c, size_t i, const struct outcome *before, const struct outcome *after)
{
    struct impact_row row;
    if (!impact_side_of(before, &row.before) ||
        !impact_side_of(after != NULL ? after : before, &row.after))
        return;
    if (!keep(before->post.front.title.text, &row.title) ||
        !keep(row.before.food, &row.before.food) || !keep(row.after.food, &row.after.food))
        arena_take(before->reads->arena, SIZE_MAX);
    row.path = slice_of(c->plan.items[i].path);
    c->rows[i] = row;
}

static void
compare_outcomes(struct comparing *c, struct arena *a, size_t i, const struct outcome *before,
                 struct slice bytes)
{
    struct map entries = map_new(a);
    struct reads reads = reads_new(a);
    struct outcome after;
    add_entries(a, before->reads, c->then, &entries);
    if (entries.count == 0) {
        keep_row(c, i, before, NULL);
        return;
    }
    struct post_asking asking = {&c->index, a};
    const struct post_finder posts = {post_index_find, post_index_settle, &asking};
    compile_post(a, &(struct compile_sources){c->then, NULL, &posts},
                 &(struct post_bytes){before->post.path, bytes}, &reads, &after);
    keep_row(c, i, before, &after);
    add_entries(a, &reads, c->now, &entries);
    struct slice *keys = arena_take_array(a, entries.count, sizeof *keys), text, json,
                 slug = SLICE("");
    for (size_t k = 0; k < entries.count; k++)
        keys[k] = entries.rows[k].key;
    const struct impact_pair pair = {before, &after, keys, entries.count};
    if (!impact_describe(a, &pair, &text, &json))
        return;
    struct impact_change *change = &c->changes[i];
    if (!keep(text, &change->text) || !keep(json, &change->json) || !keep(before->post.slug, &slug))
        arena_take(a, SIZE_MAX);
    change->path = c->plan.items[i].path;
    change->slug = slug.at;
    change->published = before->publishable || after.publishable;
    change->before = standing_now(before);
    change->after = standing_now(&after);
    change->share_before = tightest_share(before);
    change->share_after = tightest_share(&after);
    c->changed[i] = true;
}

static void
compare_post(void *ctx, struct worker *w, size_t i)
{
    struct comparing *c = ctx;
    struct arena *a = w->arena;
    struct failure f;
    struct post_file file;
    struct reads reads = reads_new(a);
    struct outcome before;
    char *shown = text_format(a, "%s/%s", c->shown, c->plan.items[i].path);
    if (!post_file_read(a, c->content, c->shown, c->plan.items[i].path, &file, &f)) {
        note_failure(c, &f);
        return;
    }
    if (file.gone)
        return;
    pthread_mutex_lock(&c->lock);
    c->posts++;
    pthread_mutex_unlock(&c->lock);
    struct post_asking asking = {&c->index, a};
    const struct post_finder posts = {post_index_find, post_index_settle, &asking};
    compile_post(a, &(struct compile_sources){c->now, NULL, &posts},
                 &(struct post_bytes){shown, file.bytes}, &reads, &before);
    compare_outcomes(c, a, i, &before, file.bytes);
}

static void
compare_exhausted(void *ctx, size_t i)
{
    struct comparing *c = ctx;
    struct failure f;
    failure_say(&f, "%s/%s: out of memory", c->shown, c->plan.items[i].path);
    note_failure(c, &f);
}

/* the worst a reader would meet first: how it would stand, how far that is from now, the share */
static int
by_weight(const void *left, const void *right)
{
    const struct impact_change *a = left, *b = right;
    if (a->published != b->published)
        return a->published ? -1 : 1;
    if ((a->text.length > 0) != (b->text.length > 0))
        return a->text.length > 0 ? -1 : 1;
    if (a->after != b->after)
        return a->after > b->after ? -1 : 1;
    if (a->before != b->before)
        return a->before < b->before ? -1 : 1;
    if (a->share_after < b->share_after || a->share_after > b->share_after)
        return a->share_after > b->share_after ? -1 : 1;
    return strcmp(a->path, b->path);
}

static void
take_changes(struct arena *a, struct comparing *c, struct impact *out)
{
    for (size_t i = 0; i < c->plan.count; i++) {
        if (!c->changed[i])
            continue;
        struct impact_change *change = LIST_GROW(a, out);
        *change = c->changes[i];
        change->text = slice_copy(a, c->changes[i].text);
        change->json = slice_copy(a, c->changes[i].json);
        change->slug = slice_string(a, slice_of(c->changes[i].slug));
        if (change->published && change->after == STANDING_OVER && change->before != STANDING_OVER)
            out->over++;
    }
    out->rows = arena_take_array(a, c->plan.count + 1, sizeof *out->rows);
    for (size_t i = 0; i < c->plan.count; i++) {
        struct impact_row *row = &out->rows[out->row_count];
        if (c->rows[i].path.length == 0)
            continue;
        *row = c->rows[i];
        row->title = slice_copy(a, row->title);
        row->before.food = slice_copy(a, row->before.food);
        row->after.food = slice_copy(a, row->after.food);
        out->row_count++;
    }
    if (out->count > 1)
        qsort(out->items, out->count, sizeof *out->items, by_weight);
    out->posts = c->posts;
    out->unchanged = c->posts - out->count;
    out->failures = c->failures;
    out->first_failure = c->first_failure;
}

static bool
name_content(struct comparing *c, const char *content, struct failure *f)
{
    char *whole = realpath(content, NULL);
    if (whole == NULL)
        return failure_say_errno(f, "%s", content);
    const char *slash = strrchr(whole, '/');
    snprintf(c->shown, sizeof c->shown, "%s", slash != NULL ? slash + 1 : whole);
    free(whole);
    return true;
}

bool
impact_find(struct arena *a, const struct impact_options *o, const struct tables *now,
            const struct tables *then, struct impact *out, struct failure *f)
{
    struct comparing c = {.options = o, .now = now, .then = then};
    *out = (struct impact){0};
    c.content = open(o->content, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (c.content < 0)
        return failure_say_errno(f, "%s", o->content);
    bool good = name_content(&c, o->content, f) && plan_find(a, c.content, &c.plan, f);
    if (!good) {
        close(c.content);
        return false;
    }
    if (!post_index_open(&c.index, c.content, c.shown)) {
        close(c.content);
        return failure_say(f, "out of memory");
    }
    c.changes = arena_take_array(a, c.plan.count + 1, sizeof *c.changes);
    c.changed = arena_take_array(a, c.plan.count + 1, sizeof *c.changed);
    c.rows = arena_take_array(a, c.plan.count + 1, sizeof *c.rows);
    pthread_mutex_init(&c.lock, NULL);
    const struct work work = {.count = c.plan.count,
                              .at_once = 1,
                              .each = compare_post,
                              .exhausted = compare_exhausted,
                              .ctx = &c,
                              .progress = o->progress ? "comparing" : NULL};
    good = workers_run(&work, o->threads, &out->stopped, f) || out->stopped;
    bool stopped = out->stopped;
    memcpy(out->shown, c.shown, sizeof out->shown);
    if (good)
        take_changes(a, &c, out);
    out->stopped = stopped;
    for (size_t i = 0; i < c.plan.count; i++) {
        free((void *)(uintptr_t)c.changes[i].text.at);
        free((void *)(uintptr_t)c.changes[i].json.at);
        free((void *)(uintptr_t)c.changes[i].slug);
        free((void *)(uintptr_t)c.rows[i].title.at);
        free((void *)(uintptr_t)c.rows[i].before.food.at);
        free((void *)(uintptr_t)c.rows[i].after.food.at);
    }
    pthread_mutex_destroy(&c.lock);
    post_index_close(&c.index);
    close(c.content);
    return good;
}

void
impact_write_json(struct text *t, const struct impact *i, const struct impact_options *o)
{
    struct json_writer n = json_new(t);
    json_open(&n, '{');
    json_member_string(&n, "asked", o->asked);
    json_key(&n, "posts");
    json_number(&n, (double)i->posts, 0);
    json_key(&n, "unchanged");
    json_number(&n, (double)i->unchanged, 0);
    json_key(&n, "over");
    json_number(&n, (double)i->over, 0);
    json_member_open(&n, "changes", '[');
    for (size_t c = 0; c < i->count; c++)
        json_raw(&n, i->items[c].json);
    json_close(&n, ']');
    json_close(&n, '}');
    text_add_byte(t, '\n');
}
