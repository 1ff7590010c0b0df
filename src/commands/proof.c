#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/shown.h"
#include "commands/commands.h"
#include "compile/compile.h"
#include "press/picture_file.h"
#include "press/atomic_file.h"
#include "press/plan.h"
#include "press/post_file.h"
#include "press/post_index.h"
#include "tables/table_confinement.h"
#include "write/causes.h"
#include "write/report.h"
#include "write/sarif.h"

static const char help[] =
    "usage: dariole proof [-C CONTENT] [POST...] [--format text|json|sarif] [--fail-on LEVEL]\n"
    "                     [--explain] [--by-cause]\n\n"
    "Checks posts and writes nothing. With no POST, all posts of CONTENT (default: content). A "
    "POST\n"
    "is a file, here or in CONTENT, or - for standard input.\n\n"
    "  -C CONTENT         the content folder, whose tables/ override the installed ones\n"
    "  --format FORMAT    text (default), json, or sarif (SARIF 2.1.0)\n"
    "  --fail-on LEVEL    exit 1 from findings of this level on: error (default), warning, note,\n"
    "                     none\n"
    "  --explain          the meaning of each rule once, under the findings\n"
    "  --by-cause         not the findings but what causes them, with how many posts each "
    "decides\n";

struct settings { /* what the command line asks for */
    const char *content;
    const char *format;
    enum level fail_on;
    bool explain, by_cause;
    char **posts;
    int post_count;
};

struct proof {
    struct settings settings;
    struct tables tables;
    struct text out;           /* in `keep` */
    struct arena *keep, *post; /* for the whole run; for one post */
    enum level worst;
    struct slice first; /* where to begin: the first of the worst findings, and what to do */
    size_t counts[LEVEL_ERROR + 1], answered, posts;
    bool explained[RULES];
    struct causes causes;
    struct map slugs;        /* slug -> path, where all posts are proofed */
    const char **named;      /* posts asked for, as they are found */
    int content;             /* the content folder, for pictures; -1: there is none */
    struct post_index index; /* of its posts, for those that name others */
    size_t failures;         /* posts that could not be read; the first one's failure is told */
    struct failure failure;
};

static int
wrong_use(const char *why, const char *word)
{
    shown_printf(stderr, "dariole proof: %s %s\n\n%s", why, word, help);
    return EXIT_USE;
}

/* -1: go on; else the exit status */
static int
settings_read(int argc, char **argv, struct settings *w)
{
    *w = (struct settings){.content = "content", .format = "text", .fail_on = LEVEL_ERROR};
    w->posts = argv + argc;
    char **posts = argv; /* posts are gathered at the front of argv */
    bool ended = false;
    for (int i = 1; i < argc; i++) {
        const char *word = argv[i];
        bool option = !ended && word[0] == '-' && word[1] != '\0';
        if (!option) {
            posts[w->post_count++] = argv[i];
            continue;
        }
        if (strcmp(word, "--") == 0) {
            ended = true;
        } else if (strcmp(word, "--help") == 0 || strcmp(word, "-h") == 0) {
            fputs(help, stdout);
            return EXIT_CLEAN;
        } else if (strcmp(word, "--explain") == 0) {
            w->explain = true;
        } else if (strcmp(word, "--by-cause") == 0) {
            w->by_cause = true;
        } else if (i + 1 == argc) {
            return wrong_use("no such option, or it lacks its value:", word);
        } else if (strcmp(word, "-C") == 0) {
            w->content = argv[++i];
        } else if (strcmp(word, "--format") == 0) {
            w->format = argv[++i];
        } else if (strcmp(word, "--fail-on") == 0) {
            if (strcmp(argv[++i], "none") == 0)
                w->fail_on = LEVEL_NONE;
            else if (!finding_level_read(slice_of(argv[i]), &w->fail_on))
                return wrong_use("no such level:", argv[i]);
        } else {
            return wrong_use("no such option:", word);
        }
    }
    w->posts = posts;
    if (strcmp(w->format, "text") != 0 && strcmp(w->format, "json") != 0 &&
        strcmp(w->format, "sarif") != 0)
        return wrong_use("no such format:", w->format);
    return -1;
}

static void
add_meanings(struct proof *p, const struct findings *f)
{
    for (size_t i = 0; i < f->count; i++) {
        enum rule r = f->items[i].rule;
        if (p->explained[r])
            continue;
        p->explained[r] = true;
        text_addf(&p->out, "  [%s] %s\n", rules_row(r)->id, rules_row(r)->meaning);
    }
}

static void
keep_first(struct proof *p, const struct finding *f)
{
    /* a mend of its own says what to do; that of all findings of a rule says less than the message
     */
    const bool own = f->mend.length > 0 && rules_row(f->rule)->mend == NULL;
    const struct slice what = own ? f->mend : f->message;
    p->first = text_formatted(p->keep, "%s:%u: %.*s", f->path,
                              f->place.line > 0 ? f->place.line : 1, SLICE_ARGS(what));
}

static void
add_findings(struct proof *p, const struct findings *f, struct slice source)
{
    size_t before = p->out.length;
    if (p->settings.by_cause) {
        ; /* told together, at the end */
    } else if (strcmp(p->settings.format, "text") == 0) {
        const char *no_color = getenv("NO_COLOR");
        struct report_manner manner = {.colour = isatty(STDOUT_FILENO) &&
                                                 (no_color == NULL || no_color[0] == '\0'),
                                       .source_lines = true};
        report_text(&p->out, f, source, &manner);
        if (p->settings.explain)
            add_meanings(p, f);
    } else if (strcmp(p->settings.format, "json") == 0) {
        struct text one = text_new(p->post);
        report_json(&one, f);
        struct slice items = slice_trim(text_slice(&one));
        items = slice_trim(slice_part(items, 1, items.length - 1));
        if (items.length > 0 && before > 0)
            text_add(&p->out, SLICE(",\n"));
        text_add(&p->out, items);
    } else {
        struct slice items = sarif_results(p->post, f);
        if (items.length > 0 && before > 0)
            text_add(&p->out, SLICE(",\n"));
        text_add(&p->out, items);
    }
    for (int i = LEVEL_NOTE; i <= LEVEL_ERROR; i++)
        p->counts[i] += f->count_by_level[i];
    p->answered += f->answered;
    if (f->worst > p->worst) {
        p->worst = f->worst;
        keep_first(p, &f->items[0]);
    }
}

struct seeking { /* where a post's picture is looked for: first here, then in the content folder */
    struct proof *proof;
    int folder;
    const char *post; /* its path from the folder */
};

static enum picture_found
find_picture(void *ctx, struct slice file, struct slice *bytes)
{
    const struct seeking *seeking = ctx;
    struct proof *p = seeking->proof;
    struct picture_file picture = {.found = PICTURE_MISSING};
    struct failure f;
    if (seeking->folder >= 0 &&
        !picture_file_read(p->post, seeking->folder, seeking->post, file, &picture, &f))
        return PICTURE_MISSING;
    if (picture.found == PICTURE_MISSING && seeking->folder != p->content && p->content >= 0 &&
        !picture_file_read(p->post, p->content, "", file, &picture, &f))
        return PICTURE_MISSING;
    *bytes = picture.bytes;
    return picture.found;
}

/* the second post of one slug is not published; the first is the one whose path comes first */
static void
check_slug(struct proof *p, const char *path, const struct outcome *o, struct slice bytes)
{
    if (p->settings.post_count > 0 || !o->publishable)
        return;
    const char *first = map_get(&p->slugs, o->post.slug);
    if (first == NULL) {
        map_put(&p->slugs, slice_copy(p->keep, o->post.slug),
                slice_string(p->keep, slice_of(path)));
        return;
    }
    struct notices one = {.arena = p->post};
    notice_add(&one, RULE_SLUG_TWICE, o->post.front.slug.place, o->post.slug, slice_of(first));
    struct findings f;
    findings_make(p->post, path, &one, &f);
    add_findings(p, &f, bytes);
}

static void
proof_bytes(struct proof *p, const char *path, struct seeking *seeking, struct slice bytes)
{
    struct reads reads = reads_new(p->post);
    struct outcome *o = arena_take(p->post, sizeof *o);
    const struct picture_finder finder = {find_picture, seeking};
    struct post_asking asking = {&p->index, p->post};
    const struct post_finder posts = {post_index_find, post_index_settle, &asking};
    const struct compile_sources sources = {&p->tables, seeking == NULL ? NULL : &finder, &posts};
    compile_post(p->post, &sources, &(struct post_bytes){path, bytes}, &reads, o);
    if (p->settings.by_cause)
        causes_add(&p->causes, slice_string(p->keep, slice_of(path)), o);
    add_findings(p, &o->findings, bytes);
    check_slug(p, path, o, bytes);
    p->posts++;
}

static bool
read_standard_input(struct arena *a, struct slice *out, struct failure *f)
{
    struct text t = text_new(a);
    char piece[65536];
    for (ssize_t n; (n = read(STDIN_FILENO, piece, sizeof piece)) != 0;) {
        if (n < 0 && errno != EINTR)
            return failure_say_errno(f, "cannot read standard input");
        if (n > 0 && t.length <= POST_BYTES_MOST)
            text_add_bytes(&t, piece, (size_t)n);
    }
    *out = text_slice(&t);
    return true;
}

/* a post of the content folder, as a press would read it */
static bool
proof_own(struct proof *p, const char *path, const char *within, struct failure *f)
{
    struct post_file file;
    struct seeking seeking = {p, p->content, within};
    if (!post_file_read(p->post, p->content, p->settings.content, within, &file, f))
        return false;
    if (file.gone)
        return failure_say(f, "%s: there is no such file", path);
    proof_bytes(p, path, &seeking, file.bytes);
    return true;
}

/* a post that lies elsewhere */
static bool
proof_other(struct proof *p, const char *path, struct failure *f)
{
    struct slice bytes;
    const char *slash = strrchr(path, '/');
    const size_t length = slash == NULL ? 0 : (size_t)(slash - path) + 1;
    const char *folder = slice_string(p->keep, (struct slice){path, length});
    if (!atomic_file_read_start(p->post, path, POST_BYTES_MOST + 1, &bytes, f))
        return false;
    struct seeking seeking = {.proof = p, .post = path + length};
    seeking.folder = open(length > 0 ? folder : ".", O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    proof_bytes(p, path, &seeking, bytes);
    if (seeking.folder >= 0)
        close(seeking.folder);
    return true;
}

/* a post that the machine cannot read does not keep the rest from being proofed */
static void
proof_post(struct proof *p, const char *path)
{
    struct slice bytes;
    struct failure f;
    arena_reset(p->post);
    const char *within = post_file_within(p->keep, p->settings.content, path);
    bool read = true;
    if (strcmp(path, "-") != 0)
        read = within != NULL && p->content >= 0 ? proof_own(p, path, within, &f)
                                                 : proof_other(p, path, &f);
    else if ((read = read_standard_input(p->post, &bytes, &f)))
        proof_bytes(p, "standard-input.md", NULL, bytes);
    if (!read && p->failures++ == 0)
        p->failure = f;
}

/* what is wrong in the tables comes first */
static void
proof_tables(struct proof *p)
{
    for (size_t i = 0; i < p->tables.notice_count; i++) {
        arena_reset(p->post);
        struct notices one = {.arena = p->post};
        const struct table_notice *n = &p->tables.notices[i];
        notice_pass(&one, &n->notice);
        struct findings f;
        findings_make(p->post, n->path, &one, &f);
        struct slice bytes = SLICE("");
        struct failure none = {""};
        atomic_file_read(p->post, n->path, POST_BYTES_MOST, &bytes, &none);
        add_findings(p, &f, bytes);
    }
}

static bool
proof_all(struct proof *p)
{
    if (p->content < 0)
        return failure_say_errno(&p->failure, "cannot open the content folder %s",
                                 p->settings.content);
    struct plan plan = {0};
    bool found = plan_find(p->keep, p->content, &plan, &p->failure);
    size_t n = strlen(p->settings.content);
    const char *slash = n > 0 && p->settings.content[n - 1] == '/' ? "" : "/";
    const bool here =
        strcmp(p->settings.content, ".") == 0 || strcmp(p->settings.content, "./") == 0;
    for (size_t i = 0; found && i < plan.count; i++)
        proof_post(p, text_format(p->keep, "%s%s%s", here ? "" : p->settings.content,
                                  here ? "" : slash, plan.items[i].path));
    return found;
}

/* the posts that are named, each with the folder that its picture may lie in */
static void
allow_posts(const struct proof *p, struct confinement *c)
{
    for (int i = 0; i < p->settings.post_count; i++) {
        const char *path = p->named[i], *slash = strrchr(path, '/');
        if (strcmp(path, "-") == 0)
            continue;
        const struct slice folder =
            slice_part(slice_of(path), 0, slash != NULL ? (size_t)(slash - path) + 1 : 0);
        confinement_allow(c, path, CONFINEMENT_READ);
        confinement_allow(c, slash != NULL ? slice_string(p->keep, folder) : ".", CONFINEMENT_READ);
    }
}

/* from here on nothing but the content folder, the tables and these posts is read */
static bool
confine(struct proof *p, const struct table_layers *layers)
{
    struct confinement c;
    confinement_begin(&c);
    confinement_allow_open(&c, p->content, CONFINEMENT_READ);
    allow_posts(p, &c);
    const bool good = table_confinement_allow(p->keep, layers, &c, &p->failure);
    if (good)
        confinement_enter(&c);
    return good;
}

static bool
proof_run(struct proof *p)
{
    struct table_layers layers;
    p->content = open(p->settings.content, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    const int error = errno;
    p->named = arena_take_array(p->keep, (size_t)p->settings.post_count, sizeof *p->named);
    for (int i = 0; i < p->settings.post_count; i++)
        p->named[i] = post_file_named(p->keep, p->settings.content, p->settings.posts[i]);
    if (!tables_layers(p->keep, p->settings.content, &layers, &p->failure) ||
        !confine(p, &layers) || !tables_load(p->keep, &layers, NULL, &p->tables, &p->failure))
        return false;
    proof_tables(p);
    errno = error;
    if (!post_index_open(&p->index, p->content, p->settings.content))
        return failure_say(&p->failure, "out of memory");
    if (p->settings.post_count == 0)
        return proof_all(p);
    for (int i = 0; i < p->settings.post_count; i++)
        proof_post(p, p->named[i]);
    return true;
}

static bool
put(void *ctx, struct slice bytes)
{
    return fwrite(bytes.at, 1, bytes.length, ctx) == bytes.length;
}

static struct slice
gathered_results(void *ctx, size_t i, enum piece_of_record piece)
{
    const struct proof *p = ctx;
    (void)i;
    return piece == RECORD_SARIF ? text_slice(&p->out) : SLICE("");
}

static bool
print_all(struct proof *p)
{
    enum { CAUSES_SHOWN = 40 };
    bool printed = true;
    if (p->settings.by_cause)
        causes_write(&p->out, &p->causes, CAUSES_SHOWN);
    if (strcmp(p->settings.format, "sarif") == 0) {
        struct gathering g = {.count = 1, .piece = gathered_results, .ctx = p};
        printed = sarif_write(p->keep, &g, (struct outlet){put, stdout});
    } else if (strcmp(p->settings.format, "json") == 0) {
        printed = put(stdout, SLICE("[")) && put(stdout, text_slice(&p->out)) &&
                  put(stdout, SLICE("]\n"));
    } else {
        printed = put(stdout, text_slice(&p->out));
    }
    if (!printed || fflush(stdout) != 0)
        return failure_say_errno(&p->failure, "cannot write to standard output");
    shown_printf(stderr, "%zu post%s: %zu error%s, %zu warning%s, %zu note%s, %zu answered\n",
                 p->posts, p->posts == 1 ? "" : "s", p->counts[LEVEL_ERROR],
                 p->counts[LEVEL_ERROR] == 1 ? "" : "s", p->counts[LEVEL_WARNING],
                 p->counts[LEVEL_WARNING] == 1 ? "" : "s", p->counts[LEVEL_NOTE],
                 p->counts[LEVEL_NOTE] == 1 ? "" : "s", p->answered);
    if (p->worst >= LEVEL_WARNING)
        shown_printf(stderr, "First: %.*s\n", SLICE_ARGS(p->first));
    if (p->out.length > 0 && isatty(STDERR_FILENO))
        fputs("`dariole rules RULE` explains the word in brackets.\n", stderr);
    return true;
}

static int
proof_with(struct arena *keep, struct arena *post, const struct settings *settings)
{
    struct failure exhausted = {"the machine has no memory left"};
    struct proof *p = NULL;
    if (setjmp(*arena_guard(keep)) != 0 || setjmp(*arena_guard(post)) != 0) {
        shown_printf(stderr, "dariole proof: %s\n", exhausted.text);
        return EXIT_MACHINE;
    }
    p = arena_take(keep, sizeof *p);
    p->settings = *settings;
    p->keep = keep;
    p->post = post;
    p->out = text_new(keep);
    p->slugs = map_new(keep);
    causes_begin(keep, &p->causes);
    p->content = -1;
    arena_lend(post);
    bool done = proof_run(p);
    done = print_all(p) && done &&
           p->failures == 0; /* what was found before the machine failed is worth having */
    arena_lend(NULL);
    post_index_close(&p->index);
    if (p->content >= 0)
        close(p->content);
    if (!done) {
        shown_printf(stderr, "dariole proof: %s", p->failure.text);
        if (p->failures > 1)
            shown_printf(stderr, " (and %zu more like it)", p->failures - 1);
        fputc('\n', stderr);
        return EXIT_MACHINE;
    }
    return p->settings.fail_on != LEVEL_NONE && p->worst >= p->settings.fail_on ? EXIT_FINDINGS
                                                                                : EXIT_CLEAN;
}

int
commands_proof(int argc, char **argv)
{
    struct settings settings;
    int status = settings_read(argc, argv, &settings);
    if (status >= 0)
        return status;
    struct arena *keep = arena_open(1 << 20), *post = arena_open(1 << 20);
    status = EXIT_MACHINE;
    if (keep != NULL && post != NULL)
        status = proof_with(keep, post, &settings);
    else
        fputs("dariole proof: the machine has no memory left\n", stderr);
    arena_close(keep);
    arena_close(post);
    return status;
}
