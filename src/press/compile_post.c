#include "compile/compile.h"
#include "press/pressing.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "press/picture_file.h"
#include "press/post_file.h"
#include "write/article.h"
#include "write/preview.h"
#include "write/recipe_data.h"
#include "press/manifest.h"
#include "press/output_name.h"
#include "press/compile_post.h"

enum { OUTPUTS_MOST = 3 + REGIONS_MOST, WAITING_MOST = 3000, ORDINAL_BITS = 8 };

struct output_text {
    const char *pattern; /* "data" "/" "*" ".json": the star stands for the slug */
    struct slice bytes;
};

struct post_compilation {
    struct pressing *press;
    struct press_worker *thread_worker;
    struct arena *arena;
    size_t number;
    const struct ledger_post *before; /* as the ledger had it, or NULL */
    struct post_file file;
    struct slice picture_file; /* as the post names it */
    struct picture_file picture;
    bool picture_failed;
    struct failure picture_failure;
    struct reads reads;
    struct outcome *outcome; /* some KB, which are not to be cleared twice */
    struct record record;
    struct output_text outputs[OUTPUTS_MOST];
    uint32_t output_count;
    bool named; /* the manifest has all of them */
    struct ledger_post now;
};

void
pressing_failed(struct pressing *p, const struct failure *f, bool halt)
{
    pthread_mutex_lock(&p->lock);
    if (p->failures++ == 0)
        p->first_failure = *f;
    p->halted = p->halted || halt;
    p->dirty = true;
    pthread_mutex_unlock(&p->lock);
}

bool
pressing_published(const struct ledger_post *post)
{
    return post->output_count > 0;
}

/* what will not go better with the next post */
static bool
disk_is_full(int error)
{
    return error == ENOSPC || error == EDQUOT || error == EIO || error == EFBIG || error == EROFS;
}

/* the post stays what it was, to be made again the next time */
void
pressing_keep_failed(struct pressing *p, size_t i)
{
    const struct planned *planned = &p->plan.items[i];
    struct ledger_post *post = &p->posts[i];
    struct ledger_text path = post->path;
    pthread_mutex_lock(&p->lock);
    *post = (struct ledger_post){0};
    if (planned->before != PLAN_NONE)
        *post = *ledger_post(&p->ledger, planned->before);
    post->path = path;
    post->state = POST_FAILED;
    post->stamp = 0;
    for (uint32_t o = 0; o < post->output_count; o++) /* some may be replaced already */
        ledger_output(&p->ledger, post->output + o)->stamp = 0;
    pthread_mutex_unlock(&p->lock);
}

void
pressing_exhausted(struct pressing *p, size_t i)
{
    struct failure f;
    pressing_keep_failed(p, i);
    failure_say(&f, "%s/%s: out of memory", p->shown, p->plan.items[i].path);
    pressing_failed(p, &f, false);
}

/* what the post names is noted, there or not: the next press looks whether that is still so */
static enum picture_found
find_picture(void *ctx, struct slice file)
{
    struct post_compilation *t = ctx;
    struct pressing *p = t->press;
    struct failure why;
    t->picture_file = file;
    if (!picture_file_read(t->arena, p->content, p->plan.items[t->number].path, file, &t->picture,
                           &why)) {
        t->picture_failed = true;
        failure_say(&t->picture_failure, "%s/%s", p->shown, why.text);
        return PICTURE_MISSING;
    }
    t->now.picture_stamp = t->picture.stamp;
    t->now.picture_digest = t->picture.digest;
    t->now.unsure = t->picture.fresh;
    return t->picture.found;
}

/* the finding that another post has the slug, among the others */
static void
add_clash(struct post_compilation *t, struct slice rival)
{
    struct outcome *o = t->outcome;
    struct notices one = {.arena = t->arena};
    struct findings clash, all = {0};
    notice_add(&one, RULE_SLUG_TWICE, o->post.front.slug.place, o->post.slug, rival);
    findings_make(t->arena, o->post.path, &one, &clash);
    all.items = arena_take_array(t->arena, o->findings.count + 1, sizeof *all.items);
    size_t at = 0;
    uint32_t line = clash.items[0].place.line;
    while (at < o->findings.count && o->findings.items[at].place.line < line) {
        all.items[at] = o->findings.items[at];
        at++;
    }
    all.items[at] = clash.items[0];
    for (; at < o->findings.count; at++)
        all.items[at + 1] = o->findings.items[at];
    all.count = o->findings.count + 1;
    findings_count(&all);
    o->findings = all;
    o->publishable = false;
}

/* asks for the slug; without it the post is not published */
static bool
claim_slug(struct post_compilation *t)
{
    struct pressing *p = t->press;
    struct slice slug = t->outcome->post.slug;
    int64_t displaced;
    pthread_mutex_lock(&p->lock);
    bool mine = slugs_claim(&p->slugs, slug, (int64_t)t->number, &displaced);
    int64_t holder = slugs_holder(&p->slugs, slug);
    pthread_mutex_unlock(&p->lock);
    if (mine)
        return true;
    struct slice rival =
        holder == SLUG_OF_PROGRAM
            ? SLICE("the list of all recipes (preview/index.html)")
            : text_formatted(t->arena, "%s/%s", p->shown, p->plan.items[holder].path);
    add_clash(t, rival);
    pthread_mutex_lock(&p->lock);
    bool good = ledger_add_string(&p->ledger, rival, &t->now.rival);
    pthread_mutex_unlock(&p->lock);
    if (!good)
        arena_take(t->arena, SIZE_MAX);
    return false;
}

static void
add_output(struct post_compilation *t, const char *pattern, struct slice bytes)
{
    t->outputs[t->output_count++] = (struct output_text){pattern, bytes};
}

static void
write_outputs(struct post_compilation *t)
{
    const struct site *site = &t->press->tables.site;
    struct fragment_manner manner = {t->press->options.heading_level, -1};
    struct text page = text_new(t->arena);
    struct slice fragment, data;
    preview_page(&page, t->outcome, &manner, &fragment, &data);
    if (!site->regions_apart)
        add_output(t, "fragments/*.html", fragment);
    for (size_t i = 0; site->regions_apart && i < site->region_count; i++) {
        manner.region = site->regions[i];
        struct text one = text_new(t->arena);
        article_write(&one, t->outcome, &manner);
        const char *id = t->press->tables.measures.regions[manner.region].id;
        add_output(t, text_format(t->arena, "fragments/*.%s.html", id), text_slice(&one));
    }
    add_output(t, "data/*.json", data);
    add_output(t, "preview/*.html", text_slice(&page));
    if (t->outcome->picture.state == PICTURE_HERE)
        add_output(t, text_format(t->arena, "images/*.%s", t->outcome->picture.ending),
                   t->picture.bytes);
}

/* a post that cannot be read, and could once: its last good outputs stay, if they are still whole.
 * Whether it may keep the slug is settled last. */
static bool
stays_as_it_was(const struct post_compilation *t)
{
    struct pressing *p = t->press;
    if (t->outcome->post.readable || t->before == NULL || !pressing_published(t->before) ||
        p->plan.items[t->number].slug_lost)
        return false;
    for (uint32_t i = 0; i < t->before->output_count; i++) {
        char name[OUTPUT_NAME_MOST];
        uint64_t digest;
        pthread_mutex_lock(&p->lock);
        struct ledger_output o = *ledger_output(&p->ledger, t->before->output + i);
        struct slice slug = ledger_string(&p->ledger, t->before->slug);
        int folder;
        bool ours = pressing_output_name(&p->ledger, slug, o.pattern, name, &folder);
        pthread_mutex_unlock(&p->lock);
        if (!ours || !atomic_file_digest(p->folders[folder], name, OUTPUT_BYTES_MOST, &digest) ||
            digest != o.digest)
            return false;
    }
    return true;
}

/* puts what the post read, its texts and room for its outputs into the ledger */
static bool
enter(struct post_compilation *t)
{
    struct pressing *p = t->press;
    struct ledger *l = &p->ledger;
    uint32_t patterns[OUTPUTS_MOST];
    uint64_t digests[OUTPUTS_MOST]; /* taken before others are kept waiting */
    for (uint32_t i = 0; i < t->output_count; i++)
        digests[i] = slice_digest(t->outputs[i].bytes, 0);
    pthread_mutex_lock(&p->lock);
    bool good = ledger_add_reads(l, &t->reads, &t->now);
    bool same_slug =
        t->before != NULL && slice_equal(ledger_string(l, t->before->slug), t->outcome->post.slug);
    if (same_slug)
        t->now.slug = t->before->slug;
    else
        good = good && ledger_add_string(l, t->outcome->post.slug, &t->now.slug);
    if (t->before != NULL && slice_equal(ledger_string(l, t->before->picture), t->picture_file))
        t->now.picture = t->before->picture;
    else
        good = good && ledger_add_string(l, t->picture_file, &t->now.picture);
    good = good && ledger_add_string(l, t->record.published, &t->now.published) &&
           ledger_add_string(l, t->record.changed, &t->now.changed);
    for (uint32_t i = 0; good && i < t->output_count; i++)
        good = ledger_pattern(l, t->outputs[i].pattern, &patterns[i]);
    if (t->output_count > 0) {
        good = good && ledger_add_outputs(l, t->output_count, &t->now.output);
        t->now.output_count = t->output_count;
    }
    t->named = true;
    for (uint32_t i = 0; good && i < t->output_count; i++) {
        struct ledger_output *o = ledger_output(l, t->now.output + i);
        bool named = false;
        o->digest = digests[i];
        o->pattern = patterns[i];
        for (uint32_t b = 0; same_slug && b < t->before->output_count; b++) {
            const struct ledger_output *old = ledger_output(l, t->before->output + b);
            if (old->pattern != o->pattern)
                continue;
            named = true;
            if (old->digest == o->digest)
                o->stamp = old->stamp;
        }
        t->named = t->named && named;
    }
    p->dirty = true;
    pthread_mutex_unlock(&p->lock);
    return good;
}

/* an output whose bytes are not in place already is written */
static bool
put_output(struct post_compilation *t, uint32_t i, struct failure *f)
{
    struct pressing *p = t->press;
    uint64_t tag = t->number << ORDINAL_BITS | i;
    char name[OUTPUT_NAME_MOST];
    struct stat s;
    pthread_mutex_lock(&p->lock);
    struct ledger_output old = *ledger_output(&p->ledger, t->now.output + i);
    int folder;
    bool ours = pressing_output_name(&p->ledger, t->outcome->post.slug, old.pattern, name, &folder);
    pthread_mutex_unlock(&p->lock);
    if (!ours) {
        errno = 0;
        return failure_say(f, "%.*s: '%s' cannot be the name of a file",
                           SLICE_ARGS(t->outcome->post.slug), t->outputs[i].pattern);
    }
    int in = p->folders[folder];
    bool there = !p->vacant[folder] && fstatat(in, name, &s, AT_SYMLINK_NOFOLLOW) == 0;
    bool same = there && old.stamp != 0 && old.stamp == atomic_file_stamp(&s) &&
                t->before != NULL && t->before->unsure == 0;
    if (same || (there && atomic_file_holds(in, name, t->outputs[i].bytes))) {
        pressing_placed(p, tag, &s, NULL);
        return true;
    }
    if (there)
        return atomic_file_add(&t->thread_worker->batch, in, name, true, t->outputs[i].bytes, tag,
                               f);
    if (!atomic_file_new(&t->thread_worker->batch, in, p->staged[folder], name, t->outputs[i].bytes,
                         &s, f))
        return false;
    pressing_placed(p, tag, &s, NULL);
    return true;
}

/* their names are noted before the first of them is there */
static bool
put_outputs(struct post_compilation *t, struct failure *f)
{
    struct slice patterns[OUTPUTS_MOST];
    for (uint32_t i = 0; i < t->output_count; i++)
        patterns[i] = slice_of(t->outputs[i].pattern);
    bool good =
        t->named || manifest_note(t->press, t->outcome->post.slug, patterns, t->output_count, f);
    for (uint32_t i = 0; good && i < t->output_count; i++)
        good = put_output(t, i, f);
    return good;
}

void
pressing_placed(void *ctx, uint64_t tag, const struct stat *s, const struct failure *f)
{
    struct pressing *p = ctx;
    size_t number = (size_t)(tag >> ORDINAL_BITS);
    uint32_t ordinal = (uint32_t)(tag & ((1u << ORDINAL_BITS) - 1));
    struct ledger_post *post = &p->posts[number];
    if (s == NULL) {
        post->state = POST_FAILED;
        post->stamp = 0;
        pressing_failed(p, f, disk_is_full(errno));
        return;
    }
    uint64_t when = atomic_file_when(s);
    pthread_mutex_lock(&p->lock);
    if (post->state == POST_MADE) {
        ledger_output(&p->ledger, post->output + ordinal)->stamp = atomic_file_stamp(s);
        if (when > p->last_placed)
            p->last_placed = when;
        if (s->st_ctim.tv_nsec == 0)
            post->unsure = 1;
    }
    pthread_mutex_unlock(&p->lock);
}

void
pressing_place_outputs(struct pressing *p, bool flushed)
{
    const struct atomic_file_teller teller = {pressing_placed, p};
    struct failure f; /* each file's own is told to the teller */
    for (unsigned i = 0; i < p->options.threads; i++)
        atomic_file_settle(&p->workers[i].batch, flushed, &teller, &f);
}

/* compiles the bytes and makes the record; t->now and t->outputs hold the rest */
static void
compile(struct post_compilation *t)
{
    struct pressing *p = t->press;
    char *shown = text_format(t->arena, "%s/%s", p->shown, p->plan.items[t->number].path);
    t->outcome = arena_take_raw(t->arena, sizeof *t->outcome);
    t->reads = reads_new(t->arena);
    const struct picture_finder finder = {find_picture, t};
    const struct compile_sources sources = {&p->tables, &finder, NULL};
    const struct post_bytes post = {shown, t->file.bytes};
    compile_post(t->arena, &sources, &post, &t->reads, t->outcome);
    if (t->outcome->publishable && claim_slug(t))
        write_outputs(t);
    record_make(t->arena, t->outcome, &t->record);
    t->now.path = p->posts[t->number].path;
    t->now.stamp = atomic_file_stamp(&t->file.stat);
    t->now.unsure |= atomic_file_fresh(&t->file.stat);
    t->now.digest = slice_digest(t->file.bytes, 0);
    t->now.state = t->output_count > 0 ? POST_MADE : POST_BARE;
    memcpy(t->now.counts, t->record.counts, sizeof t->now.counts);
}

/* everything of the last good press but what is said of it now */
static void
keep_last_good(struct post_compilation *t)
{
    t->now.state = POST_STALE;
    t->now.slug = t->before->slug;
    t->now.published = t->before->published;
    t->now.changed = t->before->changed;
    t->now.output = t->before->output;
    t->now.output_count = t->before->output_count;
    for (int k = 0; k < RECORD_PIECES; k++)
        if (k != RECORD_SARIF && k != RECORD_FINDINGS)
            t->now.pieces[k] = t->before->pieces[k];
}

static bool
turn_out(struct post_compilation *t, struct failure *f)
{
    struct pressing *p = t->press;
    if (!post_file_read(t->arena, p->content, p->shown, p->plan.items[t->number].path, &t->file, f))
        return false;
    p->plan.items[t->number].gone = t->file.gone;
    if (t->file.gone)
        return true;
    compile(t);
    if (t->picture_failed) {
        *f = t->picture_failure;
        errno = 0; /* the next post's picture may well be readable */
        return false;
    }
    if (!enter(t))
        return failure_say(f, "%s/%s: out of memory", p->shown, p->plan.items[t->number].path);
    struct ledger_post *post = &p->posts[t->number];
    *post = t->now;
    if (!pieces_add(&p->pieces, &t->thread_worker->tray, &t->record, t->before, post, f))
        return false;
    if (stays_as_it_was(t)) {
        t->now = *post;
        keep_last_good(t);
        *post = t->now;
    }
    return put_outputs(t, f);
}

void
pressing_compile_post(struct pressing *p, struct worker *w, size_t i)
{
    struct post_compilation t = {
        .press = p, .thread_worker = &p->workers[w->number], .arena = w->arena, .number = i};
    struct failure f;
    pthread_mutex_lock(&p->lock);
    bool halted = p->halted;
    pthread_mutex_unlock(&p->lock);
    if (halted)
        return;
    p->plan.items[i].turned = true;
    if (p->plan.items[i].before != PLAN_NONE)
        t.before = ledger_post(&p->ledger, p->plan.items[i].before);
    errno = 0;
    if (!turn_out(&t, &f)) {
        bool full = disk_is_full(errno);
        pressing_keep_failed(p, i);
        pressing_failed(p, &f, full);
        return;
    }
    const struct atomic_file_teller teller = {pressing_placed, p};
    if (t.thread_worker->batch.count > WAITING_MOST)
        atomic_file_settle(&t.thread_worker->batch, false, &teller, &f);
}
