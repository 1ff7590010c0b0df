#include "press/press_post.h"

#include <errno.h>
#include <string.h>

#include "compile/compile.h"
#include "press/neighbours.h"
#include "press/picture_file.h"
#include "press/place.h"
#include "press/post_file.h"
#include "write/record_make.h"

struct post_compilation {
    struct press_state *press;
    struct press_worker *worker;
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

/* the path as it stands in findings */
static char *
shown_path(const struct post_compilation *t)
{
    const struct press_state *p = t->press;
    const char *path = p->plan.items[t->number].path;
    return strcmp(p->session->shown, ".") == 0
               ? text_format(t->arena, "%s", path)
               : text_format(t->arena, "%s/%s", p->session->shown, path);
}

/* what the post names is noted, there or not: the next press looks whether that is still so */
static enum picture_found
find_picture(void *ctx, struct slice file, struct slice *bytes)
{
    struct post_compilation *t = ctx;
    struct press_state *p = t->press;
    struct failure why;
    t->picture_file = file;
    if (!picture_file_read(t->arena, p->session->content, p->plan.items[t->number].path, file,
                           &t->picture, &why)) {
        t->picture_failed = true;
        failure_say(&t->picture_failure, "%s/%s", p->session->shown, why.text);
        return PICTURE_MISSING;
    }
    t->now.picture_stamp = t->picture.stamp;
    t->now.picture_digest = t->picture.digest;
    t->now.unsure = t->picture.fresh;
    *bytes = t->picture.bytes;
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
    struct press_state *p = t->press;
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
            : text_formatted(t->arena, "%s/%s", p->session->shown, p->plan.items[holder].path);
    add_clash(t, rival);
    pthread_mutex_lock(&p->lock);
    bool good = ledger_add_string(&p->ledger, rival, &t->now.rival);
    pthread_mutex_unlock(&p->lock);
    if (!good)
        arena_take(t->arena, SIZE_MAX);
    return false;
}

/* a post that cannot be read, and could once: its last good outputs stay, if they are still whole.
 * Whether it may keep the slug is settled last. */
static bool
stays_as_it_was(const struct post_compilation *t)
{
    struct press_state *p = t->press;
    if (t->outcome->post.readable || t->before == NULL || !state_published(t->before) ||
        p->plan.items[t->number].slug_lost)
        return false;
    for (uint32_t i = 0; i < t->before->output_count; i++) {
        char name[OUTPUT_NAME_MOST];
        uint64_t digest;
        pthread_mutex_lock(&p->lock);
        struct ledger_output o = *ledger_output(&p->ledger, t->before->output + i);
        struct slice slug = ledger_string(&p->ledger, t->before->slug);
        enum output_folder folder;
        bool ours = state_output_name(p, slug, o.pattern, name, &folder);
        pthread_mutex_unlock(&p->lock);
        if (!ours ||
            !atomic_file_digest(p->session->folders[folder], name, OUTPUT_BYTES_MOST, &digest) ||
            digest != o.digest)
            return false;
    }
    return true;
}

/* puts what the post read, its texts and room for its outputs into the ledger */
static bool
enter(struct post_compilation *t)
{
    struct press_state *p = t->press;
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

/* compiles the bytes and makes the record; t->now and t->outputs hold the rest */
static void
compile(struct post_compilation *t)
{
    struct press_state *p = t->press;
    t->outcome = arena_take_raw(t->arena, sizeof *t->outcome);
    t->reads = reads_new(t->arena);
    const struct picture_finder finder = {find_picture, t};
    struct post_asking asking = {&p->index, t->arena};
    const struct post_finder posts = {post_index_find, post_index_settle, &asking};
    const struct compile_sources sources = {p->session->tables, &finder, &posts};
    const struct post_bytes post = {shown_path(t), t->file.bytes};
    compile_post(t->arena, &sources, &post, &t->reads, t->outcome);
    if (t->outcome->publishable && claim_slug(t))
        t->output_count = (uint32_t)outputs_of_post(
            t->arena, t->outcome, p->session->options->heading_level, t->picture.bytes, t->outputs);
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
    t->now.beside = t->before->beside;
    t->now.output = t->before->output;
    t->now.output_count = t->before->output_count;
    for (int k = 0; k < RECORD_PIECES; k++)
        if (k != RECORD_SARIF && k != RECORD_FINDINGS)
            t->now.pieces[k] = t->before->pieces[k];
}

static bool
make(struct post_compilation *t, struct failure *f)
{
    struct press_state *p = t->press;
    if (!post_file_read(t->arena, p->session->content, p->session->shown,
                        p->plan.items[t->number].path, &t->file, f))
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
    if (!p->anew && t->before != NULL)
        t->now.beside = neighbours_carry(p, t->arena, t->before, t->outcome->post.slug, t->outputs,
                                         t->output_count);
    if (!enter(t))
        return failure_say(f, "%s: out of memory", shown_path(t));
    struct ledger_post *post = &p->posts[t->number];
    *post = t->now;
    if (!pieces_add(&p->pieces, &t->worker->tray, &t->record, t->before, post, f))
        return false;
    if (stays_as_it_was(t)) {
        t->now = *post;
        keep_last_good(t);
        *post = t->now;
    }
    const struct post_outputs outputs = {
        t->number, t->outcome->post.slug, t->outputs, t->output_count, t->before, t->named};
    return place_post(p, t->worker, &outputs, f);
}

void
press_post(struct press_state *p, struct worker *w, size_t i)
{
    struct post_compilation t = {
        .press = p, .worker = &p->workers[w->number], .arena = w->arena, .number = i};
    struct failure f;
    pthread_mutex_lock(&p->lock);
    bool halted = p->halted;
    pthread_mutex_unlock(&p->lock);
    if (halted)
        return;
    p->plan.items[i].made = true;
    if (p->plan.items[i].before != PLAN_NONE)
        t.before = ledger_post(&p->ledger, p->plan.items[i].before);
    errno = 0;
    if (!make(&t, &f)) {
        bool full = place_is_full(errno);
        state_keep_failed(p, i);
        state_fail(p, &f, full);
        return;
    }
    place_much(p, t.worker);
}

void
press_post_exhausted(struct press_state *p, size_t i)
{
    struct failure f;
    state_keep_failed(p, i);
    failure_say(&f, "%s/%s: out of memory", p->session->shown, p->plan.items[i].path);
    state_fail(p, &f, false);
}
