#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/types.h>

#include "base/list.h"
#include "base/shown.h"
#include "commands/commands.h"
#include "compile/compile.h"
#include "press/atomic_file.h"
#include "press/post_file.h"
#include "reckon/dish_build.h"
#include "tables/table_ask.h"
#include "write/report.h"
#include "write/understood.h"
#include "write/weighing.h"

static const char help[] =
    "usage: dariole weigh [--measures REGION] [--json] [-C CONTENT] [LINE... | --post POST]\n\n"
    "Brings ingredient lines to grams and shows the working: unit, volume, density, weight of a\n"
    "piece, edible share, each with its source. With no LINE, reads lines from standard input.\n\n"
    "  --measures REGION  whose cups and spoons: us us-label au nz uk ca metric jp;\n"
    "                     without it, the `measures` of site.yaml (metric as it comes)\n"
    "  --post POST        the lines of a post instead: how each was understood, in one table\n"
    "  --json             one JSON object a line, as `dariole-weigh` of the schemas says\n"
    "  -C CONTENT         a blog's folder: its tables/ over those that came with the program\n\n"
    "Exit: 0; 1 when a line has a finding of level error; 2 wrong use; 3 the machine failed.\n";

struct weigh_options {
    const char *measures, *content, *post;
    bool json;
    char **lines;
    int line_count;
};

static int
misuse(const char *what, const char *word)
{
    shown_printf(stderr, "dariole weigh: %s '%s'; `dariole weigh --help` tells the options\n", what,
                 word);
    return EXIT_USE;
}

/* EXIT_CLEAN to go on, else what to exit with; -1 after --help */
static int
options_read(int argc, char **argv, struct weigh_options *o)
{
    int i = 1;
    for (; i < argc && argv[i][0] == '-' && argv[i][1] != '\0'; i++) {
        const char *word = argv[i];
        if (strcmp(word, "--") == 0) {
            i++;
            break;
        }
        if (strcmp(word, "--help") == 0 || strcmp(word, "-h") == 0) {
            fputs(help, stdout);
            return -1;
        }
        if (strcmp(word, "--json") == 0)
            o->json = true;
        else if (strncmp(word, "--measures=", 11) == 0)
            o->measures = word + 11;
        else if (strcmp(word, "--measures") == 0 || strcmp(word, "-C") == 0 ||
                 strcmp(word, "--post") == 0) {
            if (i + 1 == argc)
                return misuse("a word is missing behind", word);
            *(word[1] == 'C' ? &o->content : word[2] == 'p' ? &o->post : &o->measures) = argv[++i];
        } else
            return misuse("there is no option", word);
    }
    o->lines = argv + i;
    o->line_count = argc - i;
    if (o->post != NULL && o->line_count > 0)
        return misuse("lines and a post, but not both:", o->lines[0]);
    if (o->post != NULL && o->measures != NULL)
        return misuse("a post has measures of its own, not", o->measures);
    return EXIT_CLEAN;
}

/* one food of the line, found and weighed by itself, so that what is said of it stays with it */
static void
weigh_food(struct arena *a, const struct ingredient_line *line, size_t option, size_t at,
           int region, const struct tables *tables, struct notices *notices,
           struct weighed_line *out)
{
    struct ingredient_line *one = arena_take(a, sizeof *one);
    struct written_option *only = arena_take(a, sizeof *only);
    struct ingredient in;
    memset(&in, 0, sizeof in);
    *one = *line;
    *only = (struct written_option){&line->options[option].foods[at], 1};
    one->options = only;
    one->option_count = 1;
    dish_build_line(a, one, region, tables, NULL, notices, &in);
    for (size_t i = 0; i < in.options[0].count; i++) {
        out->findings = arena_regrow(a, out->findings, out->count * sizeof *out->findings,
                                     (out->count + 1) * sizeof *out->findings);
        struct notices none = {a, NULL, 0, 0};
        findings_make(a, "", i == 0 ? notices : &none, &out->findings[out->count]);
        weighing_add(a, out, &in.options[0].helpings[i], option);
    }
}

/* "bay leaf, fresh or dried": another way to take the line that comes to the same is none */
static void
drop_same(struct weighed_line *out, size_t from)
{
    bool same = from > 0 && out->count - from <= from;
    for (size_t i = from; same && i < out->count; i++) {
        const struct weighed_food *a = &out->foods[i - from], *b = &out->foods[i];
        same = a->option == 0 && a->food != NULL && a->food == b->food && a->form == b->form &&
               a->weighing->known && b->weighing->known &&
               a->weighing->grams.low == b->weighing->grams.low &&
               a->weighing->grams.high == b->weighing->grams.high;
    }
    if (same)
        out->count = from;
}

/* true when a finding is an error */
static bool
weigh_line(struct arena *a, struct slice text, int region, const struct tables *tables, bool json,
           struct text *t)
{
    struct notices notices = {a, NULL, 0, 0};
    struct ingredient_line line;
    struct weighed_line out;
    struct lexicon lexicon = tables_lexicon(tables, a, region, NULL);
    memset(&line, 0, sizeof line);
    memset(&out, 0, sizeof out);
    ingredient_line_read(a, text, NULL, &lexicon, &notices, &line);
    if (line.option_count == 0) {
        /* what cannot be read is still a line, of no known food */
        line.options = arena_take(a, sizeof *line.options);
        line.options[0].foods = arena_take(a, sizeof *line.options[0].foods);
        line.options[0].foods[0].amount_unread = true;
        line.options[0].count = line.option_count = 1;
        line.text = text;
    }
    out.written = text;
    out.line = line.text;
    out.optional = line.optional;
    for (size_t o = 0; o < line.option_count; o++) {
        const size_t from = out.count;
        for (size_t k = 0; k < line.options[o].count; k++) {
            weigh_food(a, &line, o, k, region, tables, &notices, &out);
            notices.count = 0;
        }
        drop_same(&out, from);
    }
    if (json)
        weighing_json(t, &out);
    else
        weighing_text(t, &out, tables);
    bool error = false;
    for (size_t i = 0; i < out.count; i++)
        error = error || out.findings[i].worst == LEVEL_ERROR;
    return error;
}

static int
weigh_one(struct arena *a, const char *bytes, size_t length, int region,
          const struct tables *tables, bool json)
{
    struct slice line = slice_trim((struct slice){bytes, length});
    if (line.length == 0)
        return EXIT_CLEAN;
    if (setjmp(*arena_guard(a)) != 0) {
        fputs("dariole weigh: there is no memory for a line\n", stderr);
        return EXIT_MACHINE;
    }
    struct text t = text_new(a);
    bool error = weigh_line(a, line, region, tables, json, &t);
    bool written = shown_print(stdout, text_slice(&t), json);
    arena_reset(a);
    if (!written)
        return EXIT_MACHINE;
    return error ? EXIT_FINDINGS : EXIT_CLEAN;
}

static int
weigh_all(const struct weigh_options *o, int region, const struct tables *tables)
{
    struct arena *a = arena_open((size_t)1 << 16);
    int worst = EXIT_CLEAN;
    if (a == NULL)
        return EXIT_MACHINE;
    for (int i = 0; i < o->line_count && worst != EXIT_MACHINE; i++) {
        int status = weigh_one(a, o->lines[i], strlen(o->lines[i]), region, tables, o->json);
        worst = status > worst ? status : worst;
    }
    char *line = NULL;
    size_t room = 0;
    ssize_t n;
    while (o->line_count == 0 && worst != EXIT_MACHINE && (n = getline(&line, &room, stdin)) >= 0) {
        int status = weigh_one(a, line, (size_t)n, region, tables, o->json);
        worst = status > worst ? status : worst;
    }
    free(line);
    arena_close(a);
    if (fflush(stdout) != 0 || ferror(stdout)) {
        shown_printf(stderr, "dariole weigh: cannot write: %s\n", strerror(errno));
        return EXIT_MACHINE;
    }
    return worst;
}

/* how each line of a post was understood */
static int
weigh_post(struct arena *a, const struct weigh_options *o, const struct tables *tables)
{
    struct failure f = {""};
    struct slice bytes;
    const char *path = post_file_named(a, o->content, o->post);
    if (!atomic_file_read_start(a, path, POST_BYTES_MOST + 1, &bytes, &f)) {
        shown_printf(stderr, "dariole weigh: %s\n", f.text);
        return EXIT_MACHINE;
    }
    struct reads reads = reads_new(a);
    struct outcome *out = arena_take(a, sizeof *out);
    compile_post(a, &(struct compile_sources){tables, NULL, NULL},
                 &(struct post_bytes){path, bytes}, &reads, out);
    struct text t = text_new(a);
    if (o->json)
        understood_json(&t, out);
    else
        understood_text(&t, out);
    if (!shown_print(stdout, text_slice(&t), o->json) || fflush(stdout) != 0) {
        fputs("dariole weigh: cannot write\n", stderr);
        return EXIT_MACHINE;
    }
    return out->post.readable ? EXIT_CLEAN : EXIT_FINDINGS;
}

int
commands_weigh(int argc, char **argv)
{
    struct weigh_options o = {0};
    int status = options_read(argc, argv, &o);
    if (status != EXIT_CLEAN)
        return status < 0 ? EXIT_CLEAN : status;
    struct arena *a = arena_open((size_t)1 << 16);
    struct failure f = {""};
    struct table_layers layers;
    if (a == NULL || setjmp(*arena_guard(a)) != 0) {
        fputs("dariole weigh: there is no memory for the tables\n", stderr);
        return EXIT_MACHINE;
    }
    struct tables *tables = arena_take(a, sizeof *tables);
    if (!tables_layers(a, o.content, &layers, &f) || !tables_load(a, &layers, NULL, tables, &f)) {
        shown_printf(stderr, "dariole weigh: %s\n", f.text);
        status = EXIT_MACHINE;
    } else {
        struct text faults = text_new(a);
        report_tables(&faults, tables);
        if (faults.length > 0)
            shown_put(stderr, text_slice(&faults));
        if (o.post != NULL) {
            status = weigh_post(a, &o, tables);
            arena_close(a);
            return status;
        }
        int region = o.measures != NULL ? measures_region(&tables->measures, slice_of(o.measures))
                                        : tables->site.measures;
        status =
            region < 0 ? misuse("there is no region", o.measures) : weigh_all(&o, region, tables);
    }
    arena_close(a);
    return status;
}
