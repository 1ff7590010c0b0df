#include <stdio.h>
#include <string.h>

#include "base/shown.h"
#include "commands/commands.h"
#include "tables/food_names.h"
#include "tables/label.h"
#include "tables/larder.h"
#include "write/label_page.h"
#include "write/larder_page.h"
#include "write/report.h"

static const char help[] =
    "usage: dariole larder [--json] [-C CONTENT] [WORDS]\n"
    "       dariole larder [-C CONTENT] --label FILE\n\n"
    "Looks a food up: all its forms with their densities and weights, grams of a teaspoon,\n"
    "tablespoon and cup in each region, contents, allergens, every figure with its source.\n"
    "WORDS are a cook's name of it, its id, or part of its name; with no WORDS, lists all "
    "foods.\n\n"
    "  --json      one JSON object a food\n"
    "  --label FILE  the foods of a file that say what their packets say: each as a finished "
    "block\n"
    "              for a table, with what stays open, and the most that a serve may be\n"
    "  -C CONTENT  a blog's folder: its tables/ over those that came with the program\n\n"
    "Exit: 0; 1 when there is no such food; 2 wrong use; 3 the machine failed.\n";

struct larder_options {
    const char *content;
    const char *label; /* a file of foods with labels; NULL: none */
    bool json;
    struct slice words;
};

static int
misuse(const char *what, const char *word)
{
    shown_printf(stderr, "dariole larder: %s '%s'; `dariole larder --help` tells the options\n",
                 what, word);
    return EXIT_USE;
}

/* EXIT_CLEAN to go on, else what to exit with; -1 after --help */
static int
options_read(struct arena *a, int argc, char **argv, struct larder_options *o)
{
    struct text words = text_new(a);
    for (int i = 1; i < argc; i++) {
        if (strcmp(argv[i], "--help") == 0 || strcmp(argv[i], "-h") == 0) {
            fputs(help, stdout);
            return -1;
        }
        if (strcmp(argv[i], "--json") == 0) {
            o->json = true;
        } else if (strcmp(argv[i], "-C") == 0 || strcmp(argv[i], "--label") == 0) {
            if (i + 1 == argc)
                return misuse("a word is missing behind", argv[i]);
            const char **value = argv[i][1] == 'C' ? &o->content : &o->label;
            *value = argv[++i];
        } else if (argv[i][0] == '-' && strcmp(argv[i], "--") != 0) {
            return misuse("there is no option", argv[i]);
        } else if (strcmp(argv[i], "--") != 0) {
            if (words.length > 0)
                text_add_byte(&words, ' ');
            text_add_string(&words, argv[i]);
        }
    }
    o->words = slice_trim(text_slice(&words));
    return EXIT_CLEAN;
}

static void
list_food(struct text *t, const struct food *f, bool json, const struct tables *tables)
{
    if (json)
        larder_page_json(t, f, tables);
    else
        text_addf(t, "%-36s %s\n", f->id, f->name);
}

/* the foods that a cook's words find, whatever they are measured by and wherever; each once */
static size_t
foods_found(struct arena *a, const struct tables *tables, struct slice words,
            const struct food **out, size_t most)
{
    size_t count = 0;
    for (size_t r = 0; r < tables->measures.region_count; r++)
        for (int by = BY_NOTHING; by <= BY_BUNCH; by++) {
            struct sought sought = {.name = words, .region = (int)r, .by = (enum measured_by)by};
            struct found found = food_find(tables->larder, a, &sought, NULL);
            const struct food *both[] = {found.food, found.rival};
            for (int i = 0; i < 2; i++) {
                size_t at = 0;
                while (at < count && out[at] != both[i])
                    at++;
                if (both[i] != NULL && at == count && count < most)
                    out[count++] = both[i];
            }
        }
    return count;
}

static size_t
show_found(struct text *t, const struct larder_options *o, const struct tables *tables)
{
    const struct food *foods[16];
    const struct food *by_id = larder_by_id(tables->larder, o->words);
    size_t count = 1;
    if (by_id != NULL)
        foods[0] = by_id;
    else
        count = foods_found(t->arena, tables, o->words, foods, sizeof foods / sizeof *foods);
    for (size_t i = 0; i < count; i++)
        if (o->json) {
            larder_page_json(t, foods[i], tables);
        } else {
            if (i > 0)
                text_add_byte(t, '\n');
            larder_page_text(t, foods[i], tables);
        }
    return count;
}

/* all foods, or those whose name or id has the words in it */
static size_t
show_list(struct text *t, const struct larder_options *o, const struct tables *tables)
{
    size_t count = 0;
    const char *part = slice_string(t->arena, o->words);
    for (size_t i = 0; i < larder_count(tables->larder); i++) {
        const struct food *f = larder_food(tables->larder, i);
        if (part[0] == '\0' || strstr(f->id, part) != NULL || strstr(f->name, part) != NULL) {
            list_food(t, f, o->json, tables);
            count++;
        }
    }
    return count;
}

/* the foods of the file that have a label, as a table takes them */
static size_t
show_labels(struct text *t, const struct larder_options *o, const struct tables *tables)
{
    size_t count = 0;
    for (size_t i = 0; i < larder_count(tables->larder); i++) {
        const struct food *f = larder_food(tables->larder, i);
        if (f->label == NULL || strcmp(f->label->path, o->label) != 0)
            continue;
        if (count++ == 0)
            text_add_string(t, "foods:\n");
        label_page_block(t, f, tables);
    }
    return count;
}

static void
say_nearest(struct arena *a, const struct larder_options *o, const struct tables *tables)
{
    struct sought sought = {.name = o->words, .region = tables->site.measures};
    struct found found = food_find(tables->larder, a, &sought, NULL);
    shown_printf(stderr, "dariole larder: '%.*s' is not in the larder", SLICE_ARGS(o->words));
    for (size_t i = 0; i < 3 && found.nearest[i] != NULL; i++)
        shown_printf(stderr, "%s%s", i == 0 ? "; near it: " : ", ", found.nearest[i]);
    fputc('\n', stderr);
}

static int
larder_run(struct arena *a, const struct larder_options *o)
{
    struct failure f = {""};
    struct table_layers layers;
    struct tables *tables = arena_take(a, sizeof *tables);
    const bool listed = tables_layers(a, o->content, &layers, &f);
    layers.foods = o->label;
    layers.passing = o->label != NULL;
    if (!listed || !tables_load(a, &layers, NULL, tables, &f)) {
        shown_printf(stderr, "dariole larder: %s\n", f.text);
        return EXIT_MACHINE;
    }
    struct text t = text_new(a), faults = text_new(a);
    report_tables(&faults, tables);
    if (faults.length > 0)
        shown_put(stderr, text_slice(&faults));
    size_t count = o->label != NULL      ? show_labels(&t, o, tables)
                   : o->words.length > 0 ? show_found(&t, o, tables)
                                         : 0;
    if (count == 0 && o->label != NULL) {
        shown_printf(stderr, "dariole larder: no food of %s has a label\n", o->label);
        return EXIT_FINDINGS;
    }
    if (count == 0)
        count = show_list(&t, o, tables);
    if (count == 0) {
        say_nearest(a, o, tables);
        return EXIT_FINDINGS;
    }
    if (!shown_print(stdout, text_slice(&t), o->json) || fflush(stdout) != 0) {
        fputs("dariole larder: cannot write\n", stderr);
        return EXIT_MACHINE;
    }
    return EXIT_CLEAN;
}

int
commands_larder(int argc, char **argv)
{
    struct arena *a = arena_open((size_t)1 << 16);
    if (a == NULL || setjmp(*arena_guard(a)) != 0) {
        fputs("dariole larder: there is no memory\n", stderr);
        return EXIT_MACHINE;
    }
    struct larder_options o = {.json = false};
    int status = options_read(a, argc, argv, &o);
    if (status == EXIT_CLEAN)
        status = larder_run(a, &o);
    arena_close(a);
    return status < 0 ? EXIT_CLEAN : status;
}
