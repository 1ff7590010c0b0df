#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/shown.h"
#include "commands/commands.h"
#include "press/press.h"
#include "press/press_apart.h"
#include "press/watch.h"
#include "press/workers.h"

static const char usage[] =
    "usage: dariole press [-C CONTENT] [-o OUT] [-j N] [--fail-on LEVEL] [--why]\n"
    "                     [--heading-level N] [--anew] [--take-over] [--watch] [-q]\n\n"
    "Compiles every post of a content folder. Only what changed is made again; what\n"
    "stands in OUT afterwards is what a press into an empty folder gives.\n\n"
    "  -C CONTENT           the content folder (content)\n"
    "  -o OUT               where outputs go (build/site)\n"
    "  -j N                 workers; all cores when not given\n"
    "  --fail-on LEVEL      exit 1 at findings of this level: error (default), warning,\n"
    "                       note, none\n"
    "  --why                tell for each post made again what made it so\n"
    "  --heading-level N    level of a fragment's title, 1 to 4 (2)\n"
    "  --anew               make everything again\n"
    "  --take-over          write over files in OUT that no press made\n"
    "  --watch              press again whenever something is saved, until interrupted\n"
    "  -q, --quiet          print no findings\n\n"
    "A post that cannot be read any more keeps its last good output, and the report\n"
    "says so. Ctrl-C finishes the posts at work and keeps a whole ledger.\n"
    "Exit: 0 no finding at the fail level, 1 findings, 2 wrong use, 3 the machine failed.\n";

static int
wrong_use(const char *what, const char *why)
{
    shown_printf(stderr, "dariole press: %s%s\n\n%s", what, why, usage);
    return EXIT_USE;
}

/* a whole number of 1 to most */
static bool
read_count(const char *word, unsigned long most, unsigned long *n)
{
    char *end;
    if (word[0] < '0' || word[0] > '9')
        return false;
    *n = strtoul(word, &end, 10);
    return *end == '\0' && *n >= 1 && *n <= most;
}

static bool
read_level(const char *word, enum level *out)
{
    if (strcmp(word, "none") == 0) {
        *out = LEVEL_NONE;
        return true;
    }
    return finding_level_read(slice_of(word), out);
}

/* the value of an option: behind "=" or a short option's letter, or the next argument */
static const char *
value_of(char **argv, int argc, int *i, const char *name)
{
    size_t n = strlen(name);
    if (strncmp(argv[*i], name, n) != 0)
        return NULL;
    const char *rest = argv[*i] + n;
    if (*rest == '\0')
        return *i + 1 < argc ? argv[++*i] : NULL;
    if (name[1] == '-')
        return *rest == '=' ? rest + 1 : NULL;
    return rest;
}

static bool
read_valued(struct press_options *o, char **argv, int argc, int *i)
{
    const char *value;
    unsigned long n;
    if ((value = value_of(argv, argc, i, "-C")) != NULL) {
        o->content = value;
        return true;
    }
    if ((value = value_of(argv, argc, i, "-o")) != NULL) {
        o->out = value;
        return true;
    }
    if ((value = value_of(argv, argc, i, "-j")) != NULL && read_count(value, 1024, &n)) {
        o->threads = (unsigned)n;
        return true;
    }
    if ((value = value_of(argv, argc, i, "--heading-level")) != NULL && read_count(value, 4, &n)) {
        o->heading_level = (int)n;
        return true;
    }
    value = value_of(argv, argc, i, "--fail-on");
    return value != NULL && read_level(value, &o->fail_at);
}

/* presses, waits for something to be saved, presses again; ends with an interrupt or when the
 * machine can watch no longer */
static int
press_watching(const struct press_options *asked)
{
    struct press_options options = *asked, *o = &options;
    struct failure f = {""};
    struct watch *w;
    while ((w = watch_open(o->content, o->out, &f)) != NULL) {
        int status = press_apart(o);
        workers_release();
        options.changed_alone = true; /* all was told the first time */
        options.anew = false;
        if (status == EXIT_USE) { /* OUT holds files of somebody else */
            watch_close(w);
            return status;
        }
        bool changed = watch_wait(w, &f);
        watch_close(w);
        if (!changed)
            break;
    }
    shown_printf(stderr, "dariole press: %s\n", f.text);
    return EXIT_MACHINE;
}

int
commands_press(int argc, char **argv)
{
    struct press_options o = {.content = "content",
                              .out = "build/site",
                              .threads = workers_all(),
                              .heading_level = 2,
                              .fail_at = LEVEL_ERROR,
                              .confined = true};
    bool watching = false;
    for (int i = 1; i < argc; i++) {
        const char *word = argv[i];
        if (strcmp(word, "--help") == 0 || strcmp(word, "-h") == 0) {
            fputs(usage, stdout);
            return EXIT_CLEAN;
        }
        if (strcmp(word, "--why") == 0)
            o.why = true;
        else if (strcmp(word, "--anew") == 0)
            o.anew = true;
        else if (strcmp(word, "--take-over") == 0)
            o.take_over = true;
        else if (strcmp(word, "--watch") == 0)
            watching = true;
        else if (strcmp(word, "-q") == 0 || strcmp(word, "--quiet") == 0)
            o.quiet = true;
        else if (!read_valued(&o, argv, argc, &i))
            return wrong_use("wrong option or value: ", word);
    }
    if (strcmp(o.content, "./") == 0)
        o.content = ".";
    o.progress = !o.quiet && isatty(STDERR_FILENO);
    if (watching)
        return press_watching(&o);
    struct press_result r;
    int status = press_run(&o, &r);
    if (fflush(stdout) != 0 && status != EXIT_MACHINE) {
        fputs("dariole: standard output cannot be written\n", stderr);
        status = EXIT_MACHINE;
    }
    workers_release(); /* an interrupt that waited ends the process here, as it would have */
    return status;
}
