#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "base/shown.h"
#include "commands/commands.h"
#include "compile/compile.h"
#include "press/atomic_file.h"
#include "press/post_file.h"
#include "press/post_index.h"
#include "write/report.h"
#include "write/worksheet.h"
#include "write/worksheet_json.h"
#include "write/worksheet_review.h"
#include "write/worksheet_steps.h"

static const char help[] =
    "usage: dariole worksheet [-C CONTENT] POST [--json] [--steps] [--review]\n\n"
    "The whole arithmetic of a post: amounts to grams, grams to loads, loads to shares, each "
    "figure\n"
    "with its source and basis. Fit to be printed and checked by hand. POST is a file, here or in\n"
    "CONTENT.\n\n"
    "  -C CONTENT  the content folder, whose tables/ override the installed ones (content)\n"
    "  --json      one JSON object (schemas/worksheet.schema.json)\n"
    "  --steps     what was understood of the method instead: who does what to which food;\n"
    "              with --json as JSON (schemas/steps.schema.json)\n"
    "  --review    behind it, what a reviewer signs: the front matter with the digest of all that "
    "the\n"
    "              verdict rests on\n\n"
    "Exit: 0; 1 when the post cannot be read as a recipe; 2 wrong use; 3 the machine failed.\n";

struct worksheet_options {
    const char *content, *post;
    bool json, steps, review;
};

static int
misuse(const char *what, const char *word)
{
    shown_printf(stderr,
                 "dariole worksheet: %s '%s'; `dariole worksheet --help` tells the options\n", what,
                 word);
    return EXIT_USE;
}

/* EXIT_CLEAN to go on, else what to exit with; -1 after --help */
static int
options_read(int argc, char **argv, struct worksheet_options *o)
{
    bool ended = false;
    for (int i = 1; i < argc; i++) {
        const char *word = argv[i];
        if (ended || word[0] != '-') {
            if (o->post != NULL)
                return misuse("one post at a time, not also", word);
            o->post = word;
        } else if (strcmp(word, "--") == 0) {
            ended = true;
        } else if (strcmp(word, "--help") == 0 || strcmp(word, "-h") == 0) {
            fputs(help, stdout);
            return -1;
        } else if (strcmp(word, "--json") == 0) {
            o->json = true;
        } else if (strcmp(word, "--review") == 0) {
            o->review = true;
        } else if (strcmp(word, "--steps") == 0) {
            o->steps = true;
        } else if (strcmp(word, "-C") == 0) {
            if (i + 1 == argc)
                return misuse("a word is missing behind", word);
            o->content = argv[++i];
        } else {
            return misuse("there is no option", word);
        }
    }
    return o->post == NULL ? misuse("the post is missing behind", "worksheet") : EXIT_CLEAN;
}

static void
say_findings(const struct outcome *out)
{
    for (size_t i = 0; i < out->findings.count; i++) {
        const struct finding *f = &out->findings.items[i];
        if (f->level == LEVEL_ERROR)
            shown_printf(stderr, "%s:%u:%u: error: %.*s [%s]\n", f->path, (unsigned)f->place.line,
                         (unsigned)f->place.column, SLICE_ARGS(f->message), rules_row(f->rule)->id);
    }
}

/* of a round-up, the sheets of its dishes one after another */
static void
write_sheet(struct text *t, const struct outcome *out, const struct worksheet_options *o)
{
    if (o->steps && o->json)
        worksheet_steps_json(t, out);
    else if (o->steps)
        worksheet_steps(t, out);
    else if (o->json)
        worksheet_json(t, out);
    else
        worksheet_text(t, out);
    if (o->review && !o->steps && !o->json)
        worksheet_review(t, out);
}

static int
worksheet_run(struct arena *a, const struct worksheet_options *o)
{
    struct failure f = {""};
    struct table_layers layers;
    struct tables *tables = arena_take(a, sizeof *tables);
    struct slice bytes;
    const char *path = post_file_named(a, o->content, o->post);
    if (!tables_layers(a, o->content, &layers, &f) || !tables_load(a, &layers, NULL, tables, &f) ||
        !atomic_file_read_start(a, path, POST_BYTES_MOST + 1, &bytes, &f)) {
        shown_printf(stderr, "dariole worksheet: %s\n", f.text);
        return EXIT_MACHINE;
    }
    struct text faults = text_new(a);
    report_tables(&faults, tables);
    if (faults.length > 0)
        shown_put(stderr, text_slice(&faults));
    struct reads reads = reads_new(a);
    struct outcome *out = arena_take(a, sizeof *out);
    const int folder = open(o->content, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    struct post_index index;
    if (!post_index_open(&index, folder, o->content))
        return EXIT_MACHINE;
    struct post_asking asking = {&index, a};
    const struct post_finder posts = {post_index_find, post_index_settle, &asking};
    compile_post(a, &(struct compile_sources){tables, NULL, &posts},
                 &(struct post_bytes){path, bytes}, &reads, out);
    post_index_close(&index);
    if (folder >= 0)
        close(folder);
    if (!out->post.readable) {
        say_findings(out);
        return EXIT_FINDINGS;
    }
    struct text t = text_new(a);
    if (!outcome_round_up(out))
        write_sheet(&t, out, o);
    for (size_t i = 0; i < out->member_count; i++)
        if (out->members[i].outcome != NULL)
            write_sheet(&t, out->members[i].outcome, o);
    if (shown_print(stdout, text_slice(&t), o->json) && fflush(stdout) == 0)
        return EXIT_CLEAN;
    fputs("dariole worksheet: cannot write\n", stderr);
    return EXIT_MACHINE;
}

int
commands_worksheet(int argc, char **argv)
{
    struct arena *a = arena_open((size_t)1 << 16);
    if (a == NULL || setjmp(*arena_guard(a)) != 0) {
        fputs("dariole worksheet: there is no memory\n", stderr);
        return EXIT_MACHINE;
    }
    struct worksheet_options o = {.content = "content"};
    int status = options_read(argc, argv, &o);
    if (status == EXIT_CLEAN)
        status = worksheet_run(a, &o);
    arena_close(a);
    return status < 0 ? EXIT_CLEAN : status;
}
