#include "press/press.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "press/check.h"
#include "press/foreign.h"
#include "press/gather.h"
#include "press/ledger_file.h"
#include "press/neighbours.h"
#include "press/old_outputs.h"
#include "press/orphans.h"
#include "press/place.h"
#include "press/press_post.h"
#include "press/press_report.h"
#include "press/resolve.h"
#include "version.h"

/* digest of the options and names that reach every output */
static uint64_t
settings_of(const struct session *s)
{
    const char *epoch = getenv("SOURCE_DATE_EPOCH");
    struct slice all =
        text_formatted(s->arena, "%s\n%d\n%d\n%s\n%s", DARIOLE_VERSION, DARIOLE_FORMAT,
                       s->options->heading_level, s->shown, epoch != NULL ? epoch : "");
    return slice_digest(all, 0);
}

/* the pieces of the ledger, or none where they are lost */
static bool
open_pieces(struct press_state *p, bool lost, struct failure *f)
{
    bool whole = true;
    p->fresh = lost;
    if (!pieces_open(&p->pieces, p->session->hidden, &p->ledger, p->fresh, &whole, f))
        return false;
    if (p->fresh || whole)
        return true;
    p->fresh = true;
    pieces_close(&p->pieces);
    return pieces_open(&p->pieces, p->session->hidden, &p->ledger, true, &whole, f);
}

static bool
load_ledger(struct press_state *p, bool pieces_lost, struct failure *f)
{
    struct session *s = p->session;
    bool found;
    if (!ledger_load(&p->ledger, s->hidden, "ledger", &found, f))
        return false;
    const uint64_t settings = settings_of(s);
    manifest_check(&p->manifest, s, &p->ledger, found);
    p->touched = !p->manifest.in_step;
    if (!found)
        session_sweep(s);
    if (!open_pieces(p, pieces_lost || !found, f))
        return false;
    if (p->fresh)
        p->manifest.in_step = false;
    p->anew = p->fresh || p->ledger.head.settings != settings || s->options->anew;
    p->ledger.head.settings = settings;
    p->ledger.head.pieces_file = p->pieces.number;
    return true;
}

/* finds the posts and lays them beside the ledger */
static bool
build_plan(struct press_state *p, struct failure *f)
{
    if (!plan_find(p->session->arena, p->session->content, &p->plan, f))
        return false;
    plan_match(&p->plan, &p->ledger);
    p->posts = calloc(p->plan.count + 1, sizeof *p->posts);
    bool good = p->posts != NULL;
    for (size_t i = 0; good && i < p->plan.count; i++) {
        struct planned *planned = &p->plan.items[i];
        if (p->fresh)
            planned->before = PLAN_NONE;
        planned->why = planned->before == PLAN_NONE ? WHY_NEW : p->anew ? WHY_PROGRAM : WHY_NOT;
        if (planned->before == PLAN_NONE)
            good = ledger_add_string(&p->ledger, slice_of(planned->path), &p->posts[i].path);
    }
    if (p->fresh) { /* pieces of before are lost: no record of before is of use */
        memset(&p->ledger.head.of_tables, 0, sizeof p->ledger.head.of_tables);
        memset(p->ledger.head.gathered, 0, sizeof p->ledger.head.gathered);
        p->plan.removed = 0;
    }
    return good || failure_say(f, "out of memory");
}

/* tables are loaded where their files were touched, and asked where their values changed */
static bool
ask_tables(struct press_state *p, struct failure *f)
{
    struct session *s = p->session;
    struct ledger_head *h = &p->ledger.head;
    uint64_t stamp;
    bool unsure;
    if (!plan_tables_stamp(s->arena, &s->layers, &stamp, &unsure, f))
        return false;
    if (stamp == h->tables_stamp && !p->anew)
        return true;
    if (!session_load_tables(s, f) || !press_report_tables(p, f))
        return false;
    h->tables_stamp = unsure ? 0 : stamp;
    p->touched = true;
    if (h->tables == s->tables->digest && !p->anew)
        return true;
    p->dirty = true;
    h->tables = s->tables->digest;
    h->site = s->tables->site.entry.digest;
    return p->anew || check_tables(p, f);
}

/* the posts to be made; whether there is anything to do at all */
static bool
list_work(struct press_state *p)
{
    size_t gone = 0;
    p->todo = arena_take_array(p->session->arena, p->plan.count + 1, sizeof *p->todo);
    for (size_t i = 0; i < p->plan.count; i++) {
        if (p->plan.items[i].gone)
            gone++;
        else if (p->plan.items[i].why != WHY_NOT)
            p->todo[p->todo_count++] = (uint32_t)i;
    }
    const bool stand = gather_stands(p);
    return p->todo_count > 0 || gone > 0 || p->plan.removed > 0 || p->dirty || p->anew ||
           p->session->journal || !stand;
}

static void
make_one(void *ctx, struct worker *w, size_t i)
{
    struct press_state *p = ctx;
    press_post(p, w, p->todo[i]);
}

static void
make_exhausted(void *ctx, size_t i)
{
    struct press_state *p = ctx;
    press_post_exhausted(p, p->todo[i]);
}

static void
try_once(void *ctx, struct worker *w, size_t i)
{
    (void)i;
    resolve_slugs(ctx, w);
}

static void
resolve_exhausted(void *ctx, size_t i)
{
    (void)i;
    struct failure f;
    failure_say(&f, "out of memory");
    state_fail(ctx, &f, true);
}

/* slugs of posts that stay as they are */
static bool
claim_standing(struct press_state *p, struct failure *f)
{
    int64_t displaced;
    if (!slugs_begin(&p->slugs, p->plan.count))
        return failure_say(f, "out of memory");
    for (size_t i = 0; i < p->plan.count; i++)
        if (!p->plan.items[i].gone && p->plan.items[i].why == WHY_NOT &&
            p->posts[i].state == POST_MADE)
            slugs_claim(&p->slugs, ledger_string(&p->ledger, p->posts[i].slug), (int64_t)i,
                        &displaced);
    return true;
}

static bool
write_trays(struct press_state *p, struct failure *f)
{
    bool good = true;
    for (unsigned i = 0; i < p->session->options->threads; i++)
        good = pieces_write(&p->pieces, &p->workers[i].tray, f) && good;
    return good;
}

static bool
prepare_workers(struct press_state *p, struct failure *f)
{
    const unsigned threads = p->session->options->threads, step = threads + 1;
    p->workers = calloc(threads, sizeof *p->workers);
    if (p->workers == NULL)
        return failure_say(f, "out of memory");
    for (unsigned i = 0; i < threads; i++)
        p->workers[i].batch = (struct atomic_file_batch){.number = i + 1, .step = step};
    p->gathered = (struct atomic_file_batch){.number = 0, .step = step};
    return true;
}

static bool
make_posts(struct press_state *p, struct press_result *r, struct failure *f)
{
    const struct press_options *o = p->session->options;
    const struct work work = {.count = p->todo_count,
                              .at_once = 1,
                              .each = make_one,
                              .exhausted = make_exhausted,
                              .ctx = p,
                              .progress = o->progress ? "pressing" : NULL};
    const struct work resolve = {
        .count = 1, .at_once = 1, .each = try_once, .exhausted = resolve_exhausted, .ctx = p};
    bool stopped = false;
    if (!prepare_workers(p, f) || !claim_standing(p, f) || !session_begin_journal(p->session, f) ||
        !manifest_begin(&p->manifest, p->session, &p->ledger, f))
        return false;
    if (!workers_run(&work, o->threads, &r->stopped, f) && !r->stopped)
        return false;
    if (!write_trays(p, f))
        return false;
    if (r->stopped || p->halted)
        return true;
    if (!workers_run(&resolve, 1, &stopped, f) && !stopped)
        return false;
    r->stopped = r->stopped || stopped;
    return write_trays(p, f);
}

/* a post that was to be made and was not */
static void
mark_unmade(struct press_state *p)
{
    for (size_t i = 0; i < p->todo_count; i++)
        if (!p->plan.items[p->todo[i]].made && !p->plan.items[p->todo[i]].gone)
            state_keep_failed(p, p->todo[i]);
}

/* joins what gathers all posts, puts everything in place, the flush before the names */
static bool
put_in_place(struct press_state *p, struct press_result *r, struct failure *f)
{
    bool stopped = false, waiting = false;
    if (r->stopped || p->halted)
        mark_unmade(p);
    else if (!gather_outputs(p, &stopped, f) && !stopped)
        return false;
    r->stopped = r->stopped || stopped;
    waiting = p->gathered.count > 0;
    for (unsigned i = 0; i < p->session->options->threads; i++)
        waiting = waiting || p->workers[i].batch.unflushed || p->workers[i].batch.count > 0;
    if (waiting && !atomic_file_flush(p->session->folders[FOLDER_OUT], f)) {
        state_fail(p, f, true);
        mark_unmade(p);
        return false;
    }
    place_waiting(p, true);
    struct failure ignored;
    gather_place(p, true, &ignored);
    return true;
}

/* the posts as they stand become the ledger's */
static void
take_posts(struct press_state *p)
{
    size_t kept = 0;
    for (size_t i = 0; i < p->plan.count; i++) {
        if (p->plan.items[i].gone)
            continue;
        if (kept != i)
            p->posts[kept] = p->posts[i];
        p->plan.items[kept++] = p->plan.items[i];
    }
    p->plan.count = kept;
    ledger_take_posts(&p->ledger, p->posts, kept);
    p->posts = NULL;
}

static bool
keep_ledger(struct press_state *p, bool whole, struct failure *f)
{
    struct session *s = p->session;
    if (!session_begin_journal(s, f) || !pieces_tidy(&p->pieces, &p->ledger, f))
        return false;
    p->ledger.head.pieces_file = p->pieces.number;
    p->ledger.head.pieces_end = p->pieces.end;
    if (p->pieces.end > 0 && fdatasync(p->pieces.fd) != 0)
        return failure_say_errno(f, ".dariole/pieces");
    if (!manifest_keep(&p->manifest, s, &p->ledger, whole, f) ||
        !ledger_save(&p->ledger, s->hidden, "ledger", f))
        return false;
    atomic_file_outwait(p->last_placed);
    pieces_forget(&p->pieces);
    if (whole)
        session_end_journal(s);
    return true;
}

/* makes what is to be made; *whole: all of it */
static bool
do_work(struct press_state *p, struct press_result *r, bool *whole, struct failure *f)
{
    if (!session_load_tables(p->session, f) || !make_posts(p, r, f) || !put_in_place(p, r, f))
        return false;
    *whole = !r->stopped && !p->halted && p->failures == 0;
    if (!(r->stopped || p->halted) && !old_outputs_remove(p, f))
        return false;
    if (!(r->stopped || p->halted) && !neighbours_remake(p, &r->beside, f))
        return false;
    if (*whole)
        orphans_tell(p);
    if (p->session->options->why)
        press_report_why(p);
    return true;
}

static bool
press_posts(struct press_state *p, struct press_result *r, bool pieces_lost, struct failure *f)
{
    struct session *s = p->session;
    bool stopped, whole = true;
    if (!tables_layers(s->arena, s->options->content, &s->layers, f) || !session_confine(s, f) ||
        !load_ledger(p, pieces_lost, f) || !build_plan(p, f) || !foreign_refuse(p, &r->refused, f))
        return false;
    if (r->refused) {
        session_withdraw(s);
        return true;
    }
    if (!check_posts(p, &stopped, f)) {
        r->stopped = stopped;
        return stopped;
    }
    if (!post_index_open(&p->index, s->content, s->shown))
        return failure_say(f, "out of memory");
    if (!ask_tables(p, f) || !check_members(p, f))
        return false;
    const bool busy = list_work(p);
    r->made = p->todo_count;
    r->removed = p->plan.removed;
    if (busy && !do_work(p, r, &whole, f))
        return false;
    take_posts(p);
    if ((busy || p->dirty || p->touched) && !keep_ledger(p, whole, f))
        return false;
    return p->pieces.damaged || press_report(p, r, f);
}

/* out of memory outside of any post's work */
static bool
press_guarded(struct press_state *p, struct press_result *r, bool pieces_lost, struct failure *f)
{
    struct arena *a = p->session->arena;
    struct arena *before = arena_lend(a);
    bool good = setjmp(*arena_guard(a)) == 0
                    ? session_open(p->session, f) && press_posts(p, r, pieces_lost, f)
                    : failure_say(f, "out of memory");
    arena_lend(before);
    return good;
}

static int
status_of(const struct press_options *o, const struct press_result *r)
{
    if (r->failures > 0)
        return EXIT_MACHINE;
    if (r->refused)
        return EXIT_USE;
    for (int level = (int)o->fail_at; level != LEVEL_NONE && level <= LEVEL_ERROR; level++)
        if (r->counts[level] > 0)
            return EXIT_FINDINGS;
    return EXIT_CLEAN;
}

/* one press; false where the pieces turn out to be damaged, and all is to be made anew */
static bool
press_once(const struct press_options *o, struct press_result *r, bool pieces_lost,
           struct failure *f)
{
    struct arena *a = arena_open((size_t)256 << 10);
    struct session s;
    struct press_state p;
    *r = (struct press_result){0};
    f->text[0] = '\0';
    session_begin(&s, o, a);
    state_begin(&p, &s);
    bool good = a != NULL ? press_guarded(&p, r, pieces_lost, f) : failure_say(f, "out of memory");
    bool damaged = p.pieces.damaged;
    r->failures = p.failures;
    if (p.failures > 0)
        *f = p.first_failure;
    else if (!good)
        r->failures = 1;
    state_close(&p);
    session_close(&s);
    arena_close(a);
    return !damaged;
}

int
press_run(const struct press_options *o, struct press_result *r)
{
    struct failure f;
    workers_hold();
    if (!press_once(o, r, false, &f))
        press_once(o, r, true, &f);
    if (r->failures > 1)
        fprintf(stderr, "dariole: %s (and %zu more like it)\n", f.text, r->failures - 1);
    else if (r->failures == 1)
        fprintf(stderr, "dariole: %s\n", f.text);
    return status_of(o, r);
}
