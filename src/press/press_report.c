#include "press/press_report.h"

#include <stdio.h>
#include <string.h>

#include "base/shown.h"
#include "write/report.h"
#include "write/sarif.h"

/* the record of one table's file, added to what was said before it */
static void
note_file(struct arena *a, const char *path, const struct notices *notices, struct text *findings,
          struct text *sarif, uint32_t counts[4])
{
    static const struct report_manner plain = {false, false};
    struct findings f;
    findings_make(a, path, notices, &f);
    report_text(findings, &f, SLICE(""), &plain);
    struct slice results = sarif_results(a, &f);
    if (sarif->length > 0 && results.length > 0)
        text_add_string(sarif, ",\n");
    text_add(sarif, results);
    for (int level = LEVEL_NOTE; level <= LEVEL_ERROR; level++)
        counts[level] += (uint32_t)f.count_by_level[level];
}

/* what stands behind a folder in a path that begins with it; empty: it does not */
static struct slice
behind(const char *folder, const char *path)
{
    const size_t n = strlen(folder);
    if (strncmp(path, folder, n) != 0 || path[n] != '/')
        return SLICE("");
    return slice_of(path + n + strspn(path + n, "/"));
}

/* A table's path from its folder's name on: outputs say nothing of where on a machine they were
 * made. */
static const char *
shown_path(const struct session *s, const char *path)
{
    struct slice rest = behind(s->options->content, path);
    if (rest.length > 0)
        return text_format(s->arena, "%s/%.*s", s->shown, SLICE_ARGS(rest));
    for (size_t i = 0; i < s->layers.count; i++) {
        const char *folder = s->layers.folders[i], *slash = strrchr(folder, '/');
        rest = behind(folder, path);
        if (rest.length > 0)
            return text_format(s->arena, "%s/%.*s", slash != NULL ? slash + 1 : folder,
                               SLICE_ARGS(rest));
    }
    return path;
}

bool
press_report_tables(struct press_state *p, struct failure *f)
{
    const struct tables *t = p->session->tables;
    struct text findings = text_new(p->session->arena), sarif = text_new(p->session->arena);
    struct ledger_post before = p->ledger.head.of_tables, *now = &p->ledger.head.of_tables;
    struct record r = {.publishable = false};
    for (size_t i = 0, end; i < t->notice_count; i = end) {
        struct notices one = {.arena = p->session->arena};
        const char *path = t->notices[i].path;
        for (end = i;
             end < t->notice_count && slice_equal(slice_of(t->notices[end].path), slice_of(path));
             end++)
            notice_pass(&one, &t->notices[end].notice);
        note_file(p->session->arena, shown_path(p->session, path), &one, &findings, &sarif,
                  r.counts);
    }
    r.pieces[RECORD_FINDINGS] = text_slice(&findings);
    r.pieces[RECORD_SARIF] = text_slice(&sarif);
    struct piece_tray tray = {0};
    for (int level = 0; level <= LEVEL_ERROR; level++)
        now->counts[level] = r.counts[level];
    bool good =
        pieces_add(&p->pieces, &tray, &r, &before, now, f) && pieces_write(&p->pieces, &tray, f);
    pieces_tray_close(&tray);
    for (int k = 0; k < RECORD_PIECES; k++)
        if (now->pieces[k].check != before.pieces[k].check)
            p->dirty = true;
    return good;
}

struct telling {
    struct press_state *press;
    bool any;
};

static bool
tell_key(void *ctx, uint32_t key)
{
    struct telling *t = ctx;
    struct press_state *p = t->press;
    if (key >= p->changed_count || p->changed[key] == 0)
        return true;
    struct slice text = ledger_string(&p->ledger, ledger_key(&p->ledger, key)->key);
    shown_printf(stdout, "%s%.*s", t->any ? ", " : "", SLICE_ARGS(text));
    t->any = true;
    return true;
}

/* the reads of before stand in the old ledger's entry, so this comes before the new one is kept */
void
press_report_why(struct press_state *p)
{
    static const char *const words[] = {[WHY_NEW] = "new post",
                                        [WHY_POST] = "the post changed",
                                        [WHY_PICTURE] = "its picture changed, came or went",
                                        [WHY_ENTRY] = "changed in the tables: ",
                                        [WHY_OUTPUT] =
                                            "an output was missing or changed by another hand",
                                        [WHY_PROGRAM] = "the program or an option changed",
                                        [WHY_SLUG] = "its slug was taken, or came free",
                                        [WHY_MEMBER] = "a post that it names changed, came or went",
                                        [WHY_AGAIN] = "left unmade the last time",
                                        [WHY_BESIDE] = "other posts fit beside it"};
    for (size_t i = 0; i < p->plan.count; i++) {
        const struct planned *planned = &p->plan.items[i];
        struct telling t = {p, false};
        if (planned->why == WHY_NOT || planned->gone)
            continue;
        shown_printf(stdout, "%s/%s: %s", p->session->shown, planned->path, words[planned->why]);
        if (planned->why == WHY_ENTRY)
            ledger_each_read(&p->ledger, ledger_post(&p->ledger, planned->before), tell_key, &t);
        putchar('\n');
    }
}

/* twice: looked through first, so that nothing is told twice when the pieces turn out damaged */
static bool
tell_findings(struct press_state *p, bool write, struct failure *f)
{
    struct piece_reader reader = {.pieces = &p->pieces};
    bool good = true;
    for (size_t i = 0; good && i <= ledger_post_count(&p->ledger); i++) {
        const struct ledger_post *post =
            i == 0 ? &p->ledger.head.of_tables : ledger_post(&p->ledger, i - 1);
        struct slice s;
        if (i > 0 && p->session->options->changed_alone &&
            (p->plan.items[i - 1].why == WHY_NOT || p->plan.items[i - 1].why == WHY_BESIDE))
            continue;
        good = pieces_read(&reader, &post->pieces[RECORD_FINDINGS], &s, f);
        if (good && write && s.length > 0)
            shown_put(stderr, s);
    }
    pieces_reader_close(&reader);
    return good;
}

static void
tell_count(const char *before, size_t count, const char *one, const char *many)
{
    if (count > 0)
        fprintf(stderr, "%s%zu %s", before, count, count == 1 ? one : many);
}

static void
tell_last_line(const struct press_result *r)
{
    fprintf(stderr, "%zu %s, %zu published", r->posts, r->posts == 1 ? "post" : "posts",
            r->published);
    fprintf(stderr, "; %zu made, %zu as before", r->made, r->posts - r->made);
    tell_count(" (", r->beside, "with other posts beside it)", "with other posts beside them)");
    tell_count(", ", r->removed, "removed", "removed");
    tell_count("; ", r->counts[LEVEL_ERROR], "error", "errors");
    tell_count(r->counts[LEVEL_ERROR] > 0 ? ", " : "; ", r->counts[LEVEL_WARNING], "warning",
               "warnings");
    tell_count(r->counts[LEVEL_ERROR] + r->counts[LEVEL_WARNING] > 0 ? ", " : "; ",
               r->counts[LEVEL_NOTE], "note", "notes");
    tell_count("; ", r->counts[LEVEL_NONE], "finding answered", "findings answered");
    fputc('\n', stderr);
    tell_count("", r->stale, "post cannot be read; its last good output stays",
               "posts cannot be read; their last good outputs stay");
    if (r->stale > 0)
        fputc('\n', stderr);
}

bool
press_report(struct press_state *p, struct press_result *r, struct failure *f)
{
    r->posts = ledger_post_count(&p->ledger);
    for (int level = 0; level <= LEVEL_ERROR; level++)
        r->counts[level] = p->ledger.head.of_tables.counts[level];
    size_t unmade = 0;
    for (size_t i = 0; i < r->posts; i++) {
        const struct ledger_post *post = ledger_post(&p->ledger, i);
        r->published += state_published(post);
        r->stale += post->state == POST_STALE;
        unmade += post->state == POST_FAILED;
        for (int level = 0; level <= LEVEL_ERROR; level++)
            r->counts[level] += post->counts[level];
    }
    if (r->stopped)
        fprintf(stderr, "dariole: stopped; %zu of %zu posts are left to be made\n", unmade,
                r->posts);
    if (p->session->options->quiet || r->stopped)
        return true;
    if (!tell_findings(p, false, f) || !tell_findings(p, true, f))
        return false;
    if (r->made > r->posts)
        r->made = r->posts;
    tell_last_line(r);
    return true;
}
