#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "base/shown.h"
#include "commands/commands.h"
#include "press/atomic_file.h"
#include "press/impact.h"
#include "press/what_if.h"
#include "press/workers.h"
#include "write/report.h"

static const char usage[] =
    "usage: dariole impact [-C CONTENT] --against TABLES [--try FIGURE]... [--html FILE]\n"
    "                      [--json] [-j N]\n"
    "       dariole impact [-C CONTENT] --try FIGURE... [--html FILE] [--json] [-j N]\n\n"
    "Tells what a change of tables does to every post; writes nothing.\n\n"
    "  -C CONTENT        the content folder (content)\n"
    "  --against TABLES  a folder of tables; a table that it does not have is the content's\n"
    "                    own. Or git:REV for the content's tables as a revision has them,\n"
    "                    the default ones where it has none\n"
    "  --try FIGURE      one figure: a limit of the site's phase ('lactose 0.5 g'), of\n"
    "                    another ('wider/fructan 0.4 g'), 'sitting 0.4 g', or what 100 g\n"
    "                    of a food hold ('courgette fructan 0.3 g'); may be given again\n"
    "  --html FILE       also a page to look at and to send: every post before and after, the\n"
    "                    largest moves first\n"
    "  --json            one JSON object\n"
    "  -j N              workers; all cores when not given\n\n"
    "A limit that is tried holds for every class of food.\n"
    "Exit: 0 no published post would come to stand over, 1 one would, 2 wrong use,\n"
    "3 the machine failed.\n";

enum { SLIGHT_MOST = 10 }; /* named */

struct asked {
    struct what_if what_if;
    struct impact_options options;
    const char *html; /* the file of the page, or NULL */
    bool json;
};

static int
wrong_use(const char *what, const char *why)
{
    shown_printf(stderr, "dariole impact: %s%s\n\n%s", what, why, usage);
    return EXIT_USE;
}

static int
fail(const struct failure *f, int status)
{
    shown_printf(stderr, "dariole: %s\n", f->text);
    return status;
}

/* posts of which nothing changes that a reader goes by, in one line */
static void
tell_slight(const struct impact *i)
{
    size_t count = 0;
    for (size_t c = 0; c < i->count; c++) {
        if (i->items[c].text.length > 0 || count++ >= SLIGHT_MOST)
            continue;
        shown_printf(stdout, "%s%s/%s",
                     count == 1 ? "only in a source, a weight or a third decimal: " : ", ",
                     i->shown, i->items[c].path);
    }
    if (count > SLIGHT_MOST)
        printf(" and %zu more", count - SLIGHT_MOST);
    if (count > 0)
        putchar('\n');
}

static void
tell(const struct impact *i)
{
    for (size_t c = 0; c < i->count; c++)
        shown_put(stdout, i->items[c].text);
    tell_slight(i);
    printf("%zu of %zu posts would change, %zu would not", i->count, i->posts, i->unchanged);
    if (i->over > 0)
        printf("; %zu published would come to stand over", i->over);
    putchar('\n');
}

/* a row that was left out on either side is no change, and the writer may take it for one */
static void
tell_faults(struct arena *a, const struct tables *now, const struct tables *then)
{
    struct text faults = text_new(a), others = text_new(a);
    report_tables(&faults, now);
    report_tables(&others, then);
    if (faults.length > 0)
        shown_put(stderr, text_slice(&faults));
    if (others.length > 0 && !slice_equal(text_slice(&faults), text_slice(&others)))
        shown_put(stderr, text_slice(&others));
}

/* all that was asked, in words */
static struct slice
asked_words(struct arena *a, const struct what_if *w)
{
    struct text t = text_new(a);
    if (w->against != NULL) {
        text_add_string(&t, "the tables of ");
        text_add_string(&t, w->against);
    }
    for (size_t i = 0; i < w->try_count; i++) {
        text_add_string(&t, t.length > 0 ? "; " : "");
        text_add_string(&t, w->tries[i]);
    }
    return text_slice(&t);
}

static bool
write_page(struct arena *a, const struct asked *k, const struct tables *now, const struct impact *i,
           struct failure *f)
{
    struct text t = text_new(a);
    impact_page_write(&t, &now->site, asked_words(a, &k->what_if), i->rows, i->row_count);
    return atomic_file_write(a, k->html, text_slice(&t), f);
}

static int
answer(struct arena *a, struct asked *k)
{
    struct failure f;
    struct table_layers layers;
    struct tables *now = arena_take(a, sizeof *now), *then = arena_take(a, sizeof *then);
    struct impact impact;
    if (!tables_layers(a, k->options.content, &layers, &f) ||
        !tables_load(a, &layers, NULL, now, &f))
        return fail(&f, EXIT_MACHINE);
    enum answer_of_tables found = what_if_tables(&k->what_if, a, &layers, then, &f);
    if (found != TABLES_ANSWERED)
        return fail(&f, found == TABLES_MISASKED ? EXIT_USE : EXIT_MACHINE);
    tell_faults(a, now, then);
    if (!impact_find(a, &k->options, now, then, &impact, &f))
        return fail(&f, EXIT_MACHINE);
    if (impact.stopped)
        return EXIT_MACHINE;
    if (k->html != NULL && !write_page(a, k, now, &impact, &f))
        return fail(&f, EXIT_MACHINE);
    if (k->json) {
        struct text t = text_new(a);
        impact_write_json(&t, &impact, &k->options);
        shown_print(stdout, text_slice(&t), true);
    } else {
        tell(&impact);
    }
    if (fflush(stdout) != 0) {
        failure_say_errno(&f, "standard output cannot be written");
        return fail(&f, EXIT_MACHINE);
    }
    if (impact.failures > 0)
        return fail(&impact.first_failure, EXIT_MACHINE);
    return impact.over > 0 ? EXIT_FINDINGS : EXIT_CLEAN;
}

static bool
read_option(struct asked *k, const char *word, const char *value)
{
    unsigned n;
    char rest;
    if (value == NULL)
        return false;
    if (strcmp(word, "-C") == 0)
        k->what_if.content = k->options.content = value;
    else if (strcmp(word, "--against") == 0)
        k->what_if.against = value;
    else if (strcmp(word, "--html") == 0)
        k->html = value;
    else if (strcmp(word, "--try") == 0 && k->what_if.try_count < TRIES_MOST)
        k->what_if.tries[k->what_if.try_count++] = value;
    else if (strcmp(word, "-j") == 0 && sscanf(value, "%u%c", &n, &rest) == 1 && n >= 1 &&
             n <= 1024)
        k->options.threads = n;
    else
        return false;
    return true;
}

int
commands_impact(int argc, char **argv)
{
    struct asked k = {.what_if = {.content = "content"},
                      .options = {.content = "content", .threads = workers_all()}};
    for (int i = 1; i < argc; i++) {
        if (strcmp(argv[i], "--help") == 0 || strcmp(argv[i], "-h") == 0) {
            fputs(usage, stdout);
            return EXIT_CLEAN;
        }
        if (strcmp(argv[i], "--json") == 0)
            k.json = true;
        else if (read_option(&k, argv[i], i + 1 < argc ? argv[i + 1] : NULL))
            i++;
        else
            return wrong_use("wrong option or value: ", argv[i]);
    }
    if (k.what_if.against == NULL && k.what_if.try_count == 0)
        return wrong_use("say --against or --try", "");
    k.options.asked = k.what_if.against != NULL ? k.what_if.against : k.what_if.tries[0];
    k.options.progress = isatty(STDERR_FILENO);
    struct arena *a = arena_open((size_t)1 << 20);
    struct failure f;
    if (a == NULL) {
        failure_say(&f, "out of memory");
        return fail(&f, EXIT_MACHINE);
    }
    workers_hold();
    struct arena *before = arena_lend(a);
    failure_say(&f, "out of memory");
    int status = setjmp(*arena_guard(a)) == 0 ? answer(a, &k) : fail(&f, EXIT_MACHINE);
    arena_lend(before);
    what_if_close(&k.what_if);
    arena_close(a);
    workers_release();
    return status;
}
