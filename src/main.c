#include <jansson.h>
#include <stdio.h>
#include <string.h>

#include "base/arena.h"
#include "base/confinement.h"
#include "base/shown.h"
#include "base/failure.h"
#include "commands/commands.h"
#include "version.h"

static const struct verb {
    const char *name;
    int (*run)(int argc, char **argv);
    const char *line;
} verbs[] = {
    {"press", commands_press, "compile the whole content folder; only what changed is made again"},
    {"proof", commands_proof, "check posts; writes nothing"},
    {"impact", commands_impact, "what a change of tables does to every post"},
    {"begin", commands_begin, "a new blog: settings and one post"},
    {"weigh", commands_weigh, "ingredient lines to grams, with the working"},
    {"worksheet", commands_worksheet, "the whole arithmetic of one post, with every source"},
    {"sitting", commands_sitting, "several portions eaten at once, food by food"},
    {"larder", commands_larder, "a food with all its figures and their sources"},
    {"rules", commands_rules, "what a rule means and how to mend what it finds"},
    {NULL, NULL, NULL},
};

static void
usage(FILE *to)
{
    fputs("usage: dariole VERB [OPTION...] [ARGUMENT...]\n\n", to);
    for (const struct verb *v = verbs; v->name != NULL; v++)
        fprintf(to, "  %-10s %s\n", v->name, v->line);
    fputs("\n`dariole VERB --help` tells the options of a verb; `dariole --version` the version,\n"
          "with -v also what press and proof are confined by.\n",
          to);
}

/* with -v: also what this kernel confines, found out by doing it */
static void
tell_version(bool verbose)
{
    struct confinement c;
    puts("dariole " DARIOLE_VERSION);
    if (!verbose)
        return;
    confinement_begin(&c);
    const struct confinement_held held = confinement_enter(&c);
    if (held.files > 0)
        printf("confined: files by Landlock, version %d\n", held.files);
    else
        puts("confined: no files (this kernel or build has no Landlock, or DARIOLE_UNCONFINED is "
             "set)");
    puts(held.calls ? "confined: calls by seccomp"
                    : "confined: no calls (this kernel or build has no seccomp filters, or "
                      "DARIOLE_UNCONFINED is set)");
}

int
main(int argc, char **argv)
{
    /* Jansson takes from the arena of the post at work; nothing is freed in the middle of the way.
     * A fixed seed gives the same order everywhere. */
    json_set_alloc_funcs(arena_lent_malloc, arena_lent_free);
    json_object_seed(1);
    if (argc < 2) {
        usage(stderr);
        return EXIT_USE;
    }
    if (strcmp(argv[1], "--help") == 0 || strcmp(argv[1], "-h") == 0) {
        usage(stdout);
        return EXIT_CLEAN;
    }
    if (strcmp(argv[1], "--version") == 0) {
        tell_version(argc > 2 && strcmp(argv[2], "-v") == 0);
        return EXIT_CLEAN;
    }
    for (const struct verb *v = verbs; v->name != NULL; v++)
        if (strcmp(argv[1], v->name) == 0)
            return v->run(argc - 1, argv + 1);
    shown_printf(stderr, "dariole: there is no verb '%s'\n\n", argv[1]);
    usage(stderr);
    return EXIT_USE;
}
