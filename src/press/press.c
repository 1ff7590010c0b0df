#include "press/press.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "press/pressing.h"
#include "version.h"
#include "press/compile_post.h"
#include "press/check.h"
#include "press/gather.h"
#include "press/press_session.h"
#include "press/staging.h"
#include "press/manifest.h"
#include "press/orphans.h"
#include "press/press_report.h"
#include "press/ledger_file.h"

/* digest of the options and names that reach every output */
static uint64_t
settings_of(const struct pressing *p)
{
    const char *epoch = getenv("SOURCE_DATE_EPOCH");
    struct slice all =
        text_formatted(p->arena, "%s\n%d\n%d\n%s\n%s", DARIOLE_VERSION, DARIOLE_FORMAT,
                       p->options.heading_level, p->shown, epoch != NULL ? epoch : "");
    return slice_digest(all, 0);
}

static bool
load_ledger(struct pressing *p, struct failure *f)
{
    bool found, whole = true;
    if (!ledger_load(&p->ledger, p->hidden, "ledger", &found, f))
        return false;
    uint64_t settings = settings_of(p);
    p->ledger_found = found;
    p->fresh = !found || p->options.pieces_lost;
    manifest_check(p);
    if (!found)
        pressing_sweep(p);
    if (!pieces_open(&p->pieces, p->hidden, &p->ledger, p->fresh, &whole, f))
        return false;
    if (!p->fresh && !whole) {
        pieces_close(&p->pieces);
        if (!pieces_open(&p->pieces, p->hidden, &p->ledger, true, &whole, f))
            return false;
        p->fresh = true;
    }
    p->has_pieces = true;
    p->anew = p->fresh || p->ledger.head.settings != settings || p->options.anew;
    p->ledger.head.settings = settings;
    p->ledger.head.pieces_file = p->pieces.number;
    return true;
}

/* finds the posts and lays them beside the ledger */
static bool
lay_plan(struct pressing *p, struct failure *f)
{
    if (!plan_find(p->arena, p->content, &p->plan, f))
        return false;
    plan_match(&p->plan, &p->ledger);
    p->posts = calloc(p->plan.count + 1, sizeof *p->posts);
    bool good = p->posts_mine = p->posts != NULL;
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

static bool
load_tables(struct pressing *p, struct failure *f)
{
    if (p->tables_loaded)
        return true;
    p->tables_loaded = tables_load(p->arena, &p->layers, NULL, &p->tables, f);
    return p->tables_loaded;
}

/* tables are loaded where their files were touched, and asked where their values changed */
static bool
check_tables(struct pressing *p, struct failure *f)
{
    struct ledger_head *h = &p->ledger.head;
    uint64_t stamp;
    bool unsure;
    if (!tables_layers(p->arena, p->options.content, &p->layers, f) ||
        !plan_tables_stamp(p->arena, &p->layers, &stamp, &unsure, f))
        return false;
    if (stamp == h->tables_stamp && !p->anew)
        return true;
    if (!load_tables(p, f) || !press_report_tables(p, f))
        return false;
    h->tables_stamp = unsure ? 0 : stamp;
    p->touched = true;
    if (h->tables == p->tables.digest && !p->anew)
        return true;
    p->dirty = true;
    h->tables = p->tables.digest;
    h->site = p->tables.site.entry.digest;
    return p->anew || pressing_ask_tables(p, f);
}

static bool
list_work(struct pressing *p, struct failure *f)
{
    size_t gone = 0;
    p->todo = arena_take_array(p->arena, p->plan.count + 1, sizeof *p->todo);
    for (size_t i = 0; i < p->plan.count; i++) {
        if (p->plan.items[i].gone)
            gone++;
        else if (p->plan.items[i].why != WHY_NOT)
            p->todo[p->todo_count++] = (uint32_t)i;
    }
    bool stand = pressing_gathered_stand(p);
    p->busy = p->todo_count > 0 || gone > 0 || p->plan.removed > 0 || p->dirty || p->anew ||
              p->journal || !stand;
    return !p->busy || load_tables(p, f);
}

static void
turn_each(void *ctx, struct worker *w, size_t i)
{
    struct pressing *p = ctx;
    pressing_compile_post(p, w, p->todo[i]);
}

static void
turn_exhausted(void *ctx, size_t i)
{
    struct pressing *p = ctx;
    pressing_exhausted(p, p->todo[i]);
}

static void
settle_once(void *ctx, struct worker *w, size_t i)
{
    (void)i;
    pressing_settle_slugs(ctx, w);
}

static void
settle_exhausted(void *ctx, size_t i)
{
    (void)i;
    struct failure f;
    failure_say(&f, "out of memory");
    pressing_failed(ctx, &f, true);
}

/* slugs of posts that stay as they are */
static bool
claim_standing(struct pressing *p, struct failure *f)
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
write_trays(struct pressing *p, struct failure *f)
{
    bool good = true;
    for (unsigned i = 0; i < p->options.threads; i++)
        good = pieces_write(&p->pieces, &p->workers[i].tray, f) && good;
    return good;
}

static bool
hire_hands(struct pressing *p, struct failure *f)
{
    p->workers = calloc(p->options.threads, sizeof *p->workers);
    if (p->workers == NULL)
        return failure_say(f, "out of memory");
    unsigned step = p->options.threads + 1;
    for (unsigned i = 0; i < p->options.threads; i++)
        p->workers[i] = (struct press_worker){.batch = {.number = i + 1, .step = step}};
    p->gathered = (struct atomic_file_batch){.number = 0, .step = step};
    return true;
}

static bool
turn_all(struct pressing *p, struct press_result *r, struct failure *f)
{
    const struct work work = {.count = p->todo_count,
                              .at_once = 1,
                              .each = turn_each,
                              .exhausted = turn_exhausted,
                              .ctx = p,
                              .progress = p->options.progress ? "pressing" : NULL};
    const struct work settle = {
        .count = 1, .at_once = 1, .each = settle_once, .exhausted = settle_exhausted, .ctx = p};
    bool stopped = false;
    if (!hire_hands(p, f) || !claim_standing(p, f) || !pressing_begin_journal(p, f) ||
        !manifest_begin(p, f))
        return false;
    for (int i = 0; i < FOLDERS; i++)
        p->vacant[i] = atomic_file_vacant(p->folders[i]);
    staging_begin(p);
    if (!workers_run(&work, p->options.threads, &r->stopped, f) && !r->stopped)
        return false;
    if (!write_trays(p, f))
        return false;
    if (r->stopped || p->halted)
        return true;
    if (!workers_run(&settle, 1, &stopped, f) && !stopped)
        return false;
    r->stopped = r->stopped || stopped;
    return write_trays(p, f);
}

/* a post that was to be made and was not */
static void
mark_unmade(struct pressing *p)
{
    for (size_t i = 0; i < p->todo_count; i++)
        if (!p->plan.items[p->todo[i]].turned && !p->plan.items[p->todo[i]].gone)
            pressing_keep_failed(p, p->todo[i]);
}

/* joins what gathers all posts, puts everything in place, the flush before the names */
static bool
put_in_place(struct pressing *p, struct press_result *r, struct failure *f)
{
    bool replaces = p->gathered.replaces, stopped = false;
    if (r->stopped || p->halted)
        mark_unmade(p);
    else if (!pressing_gather(p, &stopped, f) && !stopped)
        return false;
    r->stopped = r->stopped || stopped;
    replaces = replaces || p->gathered.replaces;
    for (unsigned i = 0; i < p->options.threads; i++)
        replaces = replaces || p->workers[i].batch.unflushed || p->workers[i].batch.count > 0;
    if (replaces && !atomic_file_flush(p->folders[FOLDER_OUT], f)) {
        pressing_failed(p, f, true);
        mark_unmade(p);
        return false;
    }
    pressing_place_outputs(p, true);
    struct failure ignored;
    pressing_place_gathered(p, true, &ignored);
    if (staging_put_back(p, f))
        return true;
    pressing_failed(p, f, true);
    return false;
}

/* the posts as they stand become the ledger's */
static void
take_posts(struct pressing *p)
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
    p->posts_mine = false;
}

static bool
keep_ledger(struct pressing *p, struct failure *f)
{
    take_posts(p);
    if (!p->busy && !p->dirty && !p->touched)
        return true;
    if (!p->busy)
        p->whole = true;
    if (!pressing_begin_journal(p, f) || !pieces_tidy(&p->pieces, &p->ledger, f))
        return false;
    p->ledger.head.pieces_file = p->pieces.number;
    p->ledger.head.pieces_end = p->pieces.end;
    if (p->pieces.end > 0 && fdatasync(p->pieces.fd) != 0)
        return failure_say_errno(f, ".dariole/pieces");
    if (!manifest_keep(p, f) || !ledger_save(&p->ledger, p->hidden, "ledger", f))
        return false;
    atomic_file_outwait(p->last_placed);
    pieces_forget(&p->pieces);
    if (p->journal && p->whole)
        unlinkat(p->hidden, "journal", 0);
    return true;
}

static bool
press_posts(struct pressing *p, struct press_result *r, struct failure *f)
{
    bool stopped;
    if (!pressing_open(p, f) || !load_ledger(p, f) || !lay_plan(p, f))
        return false;
    if (!pressing_check(p, &stopped, f)) {
        r->stopped = stopped;
        return stopped;
    }
    if (!check_tables(p, f) || !list_work(p, f))
        return false;
    r->turned = p->todo_count;
    r->removed = p->plan.removed;
    if (p->busy) {
        if (!turn_all(p, r, f) || !put_in_place(p, r, f))
            return false;
        p->whole = !r->stopped && !p->halted && p->failures == 0;
        if (!(r->stopped || p->halted) && !pressing_remove_old(p, f))
            return false;
        if (p->whole)
            orphans_tell(p);
        if (p->options.why)
            pressing_report_why(p);
    }
    if (!keep_ledger(p, f))
        return false;
    return p->pieces.damaged || pressing_report(p, r, f);
}

/* out of memory outside of any post's work */
static bool
press_guarded(struct pressing *p, struct press_result *r, struct failure *f)
{
    p->arena = arena_open((size_t)256 << 10);
    if (p->arena == NULL)
        return failure_say(f, "out of memory");
    struct arena *before = arena_lend(p->arena);
    bool good = setjmp(*arena_guard(p->arena)) == 0 ? press_posts(p, r, f)
                                                    : failure_say(f, "out of memory");
    arena_lend(before);
    return good;
}

static int
status_of(const struct press_options *o, const struct press_result *r)
{
    if (r->failures > 0)
        return EXIT_MACHINE;
    for (int level = (int)o->fail_at; level != LEVEL_NONE && level <= LEVEL_ERROR; level++)
        if (r->counts[level] > 0)
            return EXIT_FINDINGS;
    return EXIT_CLEAN;
}

int
press_run(const struct press_options *o, struct press_result *r)
{
    struct pressing p = {.options = *o,
                         .content = -1,
                         .hidden = -1,
                         .lock_file = -1,
                         .manifest = {.fd = -1},
                         .folders = {-1, -1, -1, -1, -1}};
    struct failure f = {""};
    *r = (struct press_result){0};
    pthread_mutex_init(&p.lock, NULL);
    workers_hold();
    bool good = press_guarded(&p, r, &f);
    bool again = p.pieces.damaged && !o->pieces_lost;
    r->failures = p.failures;
    if (p.failures > 0)
        f = p.first_failure;
    else if (!good)
        r->failures = 1;
    struct arena *arena = p.arena;
    pressing_close(&p);
    arena_close(arena);
    if (again) {
        struct press_options anew = *o;
        anew.pieces_lost = anew.anew = true;
        return press_run(&anew, r);
    }
    if (r->failures > 1)
        fprintf(stderr, "dariole: %s (and %zu more like it)\n", f.text, r->failures - 1);
    else if (r->failures == 1)
        fprintf(stderr, "dariole: %s\n", f.text);
    return status_of(o, r);
}
