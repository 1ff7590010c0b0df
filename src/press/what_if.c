#define _XOPEN_SOURCE 700 /* realpath */
#include "press/what_if.h"

#include <dirent.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "press/revision.h"
#include "tables/food_names.h"
#include "tables/serve_settle.h"

static const char tried_source[] = "tried on the command line";

struct asking {
    struct what_if *what_if;
    struct arena *arena;
    struct failure *failure;
};

static bool
is_folder(const char *path)
{
    struct stat s;
    return stat(path, &s) == 0 && S_ISDIR(s.st_mode);
}

static bool
make_temporary(struct asking *k)
{
    const char *where = getenv("TMPDIR");
    struct what_if *q = k->what_if;
    int n = snprintf(q->folder, sizeof q->folder, "%s/dariole-XXXXXX",
                     where != NULL && strlen(where) < 40 && where[0] == '/' ? where : "/tmp");
    if (n > 0 && mkdtemp(q->folder) != NULL)
        return true;
    q->folder[0] = '\0';
    return failure_say_errno(k->failure, "a temporary folder cannot be made");
}

/* removes what is in a folder, and the folder; links are removed, not followed */
static void
remove_folder(const char *path, int depth)
{
    DIR *d = opendir(path);
    for (struct dirent *e; d != NULL && (e = readdir(d)) != NULL;) {
        if (strcmp(e->d_name, ".") == 0 || strcmp(e->d_name, "..") == 0)
            continue;
        if (unlinkat(dirfd(d), e->d_name, 0) == 0 || depth == 0)
            continue;
        char inner[1024];
        int n = snprintf(inner, sizeof inner, "%s/%s", path, e->d_name);
        if (n > 0 && (size_t)n < sizeof inner)
            remove_folder(inner, depth - 1);
    }
    if (d != NULL)
        closedir(d);
    rmdir(path);
}

void
what_if_close(struct what_if *q)
{
    if (q->folder[0] != '\0')
        remove_folder(q->folder, 8);
    q->folder[0] = '\0';
}

/* whatever the content's own folder has and the other has not, as links beside the other's */
static bool
mix(struct asking *k, const char *other, const char *own, const char *to)
{
    const char *const sources[] = {other, own};
    for (size_t i = 0; i < 2; i++) {
        char *whole = realpath(sources[i], NULL);
        DIR *d = whole != NULL ? opendir(whole) : NULL;
        bool good = true;
        for (struct dirent *e; good && d != NULL && (e = readdir(d)) != NULL;) {
            if (e->d_name[0] == '.')
                continue;
            char *from = text_format(k->arena, "%s/%s", whole, e->d_name);
            char *link = text_format(k->arena, "%s/%s", to, e->d_name);
            if (symlink(from, link) != 0 && errno != EEXIST)
                good = failure_say_errno(k->failure, "%s", link);
        }
        if (d != NULL)
            closedir(d);
        free(whole);
        if (!good)
            return false;
    }
    return true;
}

/* the layers without the content's own tables, which are the last layer and may be the only one */
static void
drop_own(const char *own, struct table_layers *out)
{
    struct stat last, mine;
    const size_t at = out->count;
    if (at > 0 && stat(out->folders[at - 1], &last) == 0 && stat(own, &mine) == 0 &&
        last.st_dev == mine.st_dev && last.st_ino == mine.st_ino)
        out->count--;
}

/* a folder is laid over the content's own; what it has not is the content's */
static enum answer_of_tables
find_folder(struct asking *k, const char *own, const char **folder)
{
    if (!is_folder(*folder)) {
        failure_say(k->failure, "there is no folder %s", *folder);
        return TABLES_MISASKED;
    }
    char *mixed = text_format(k->arena, "%s/mixed", k->what_if->folder);
    if (mkdir(mixed, 0700) != 0) {
        failure_say_errno(k->failure, "%s", mixed);
        return TABLES_FAILED;
    }
    if (!mix(k, *folder, own, mixed))
        return TABLES_FAILED;
    *folder = mixed;
    return TABLES_ANSWERED;
}

/* the layers with the tables asked for in the place of the content's own. A revision is whole: what
 * it has not, nobody had then. */
static enum answer_of_tables
list_layers(struct asking *k, const struct table_layers *now, struct table_layers *out)
{
    const char *against = k->what_if->against, *folder = against;
    *out = *now;
    if (against == NULL)
        return TABLES_ANSWERED;
    const bool of_git = strncmp(against, "git:", 4) == 0;
    const char *name = of_git ? against + 4 : "";
    char *own = text_format(k->arena, "%s/tables", k->what_if->content);
    struct revision revision = {k->arena, k->failure, k->what_if->content, name,
                                k->what_if->folder};
    enum answer_of_tables answer =
        of_git ? revision_tables(&revision, &folder) : find_folder(k, own, &folder);
    if (answer != TABLES_ANSWERED)
        return answer;
    drop_own(own, out);
    if (folder != NULL)
        out->folders[out->count++] = folder;
    if (out->count > 0)
        return TABLES_ANSWERED;
    failure_say(k->failure, "revision '%s' has no tables, and there are no default ones", name);
    return TABLES_MISASKED;
}

struct tried {
    struct slice food;  /* empty: a limit */
    struct slice phase; /* empty: the site's */
    int phase_number;
    bool sitting, serve;
    enum group group;
    double grams;
};

static struct slice
last_word(struct slice *words)
{
    *words = slice_trim(*words);
    size_t at = words->length;
    while (at > 0 && words->at[at - 1] != ' ')
        at--;
    struct slice word = slice_part(*words, at, words->length);
    *words = slice_trim(slice_part(*words, 0, at));
    return word;
}

/* "lactose 0.5 g", "wider/fructan 0.4 g", "sitting 0.4 g", "zucchini fructan 0.3 g" */
static bool
read_try(struct arena *a, const char *written, struct tried *t)
{
    struct slice words = slice_of(written);
    *t = (struct tried){0};
    struct slice number = last_word(&words);
    if (slice_is(number, "g"))
        number = last_word(&words);
    else if (slice_ends(number, "g"))
        number = slice_part(number, 0, number.length - 1);
    else
        return false;
    char *end, *digits = slice_string(a, number);
    if (digits[0] < '0' || digits[0] > '9')
        return false;
    t->grams = strtod(digits, &end);
    struct slice group = last_word(&words);
    size_t slash = slice_find_byte(group, '/', 0);
    if (slash != SIZE_MAX) {
        t->phase = slice_part(group, 0, slash);
        group = slice_part(group, slash + 1, group.length);
    }
    t->food = words;
    t->sitting = slice_is(group, "sitting");
    t->serve = slice_is(group, "serve") && words.length > 0;
    bool phase_of_food = words.length > 0 && !t->serve && (t->phase.length > 0 || t->sitting);
    return *end == '\0' && t->grams >= 0 && t->grams <= 1000 && !phase_of_food &&
           (t->sitting || t->serve || groups_read(group, &t->group));
}

static void
add_limit(struct text *yaml, const char *indent, const char *name, double grams)
{
    text_addf(yaml, "%s%s: {grams: ", indent, name);
    text_add_number(yaml, grams, 6);
    text_add_string(yaml, ", source: \"tried on the command line\", basis: practice}\n");
}

/* the limits of one phase that are tried; of two tries of one limit the last holds */
static void
add_phase(const struct asking *k, const struct tried *tried, const struct limits *limits, int phase,
          struct text *yaml)
{
    double grams[GROUPS], sitting = -1;
    bool any = false;
    for (int g = 0; g < GROUPS; g++)
        grams[g] = -1;
    for (size_t i = 0; i < k->what_if->try_count; i++) {
        if (tried[i].food.length > 0 || tried[i].phase_number != phase)
            continue;
        if (tried[i].sitting)
            sitting = tried[i].grams;
        else
            grams[tried[i].group] = tried[i].grams;
        any = any || !tried[i].sitting;
    }
    if (!any && sitting < 0)
        return;
    text_addf(yaml, "  %s:\n", limits->phases[phase].id);
    if (sitting >= 0)
        add_limit(yaml, "    ", "sitting", sitting);
    if (any)
        text_add_string(yaml, "    groups:\n");
    for (int g = 0; g < GROUPS; g++)
        if (grams[g] >= 0)
            add_limit(yaml, "      ", groups_word((enum group)g), grams[g]);
}

/* limits that are tried make a table of their own over all others */
static bool
write_limits(struct asking *k, const struct tried *tried, const struct limits *limits,
             const char **folder)
{
    struct text yaml = text_new(k->arena);
    text_add_string(&yaml, "phases:\n");
    for (size_t i = 0; i < limits->phase_count; i++)
        add_phase(k, tried, limits, (int)i, &yaml);
    *folder = text_format(k->arena, "%s/tried", k->what_if->folder);
    char *path = text_format(k->arena, "%s/limits.yaml", *folder);
    FILE *to = mkdir(*folder, 0700) == 0 ? fopen(path, "w") : NULL;
    size_t written = to != NULL ? fwrite(yaml.bytes, 1, yaml.length, to) : 0;
    return (to != NULL && fclose(to) == 0 && written == yaml.length) ||
           failure_say_errno(k->failure, "%s", path);
}

/* a food's content or serve that is tried is set in the loaded tables, which are this question's
 * alone */
static bool
set_content(struct asking *k, struct tables *out, const struct tried *t)
{
    const struct sought sought = {.name = t->food, .region = out->site.measures};
    const struct found found = food_find(out->larder, k->arena, &sought, NULL);
    if (found.food == NULL)
        return failure_say(k->failure, "no food is called '%.*s'%s%s", SLICE_ARGS(t->food),
                           found.nearest[0] != NULL ? "; near to it: " : "",
                           found.nearest[0] != NULL ? found.nearest[0] : "");
    struct food *food = (struct food *)(uintptr_t)found.food;
    if (t->serve) {
        serve_set(k->arena, food, t->phase_number, t->grams, tried_source);
        return true;
    }
    struct figure *figure = &food->contents[t->group];
    figure->span = span_exact(t->grams);
    figure->source = tried_source;
    figure->basis = BASIS_PRACTICE;
    food->contents_entry[t->group].digest = figure_digest(figure, 0);
    return true;
}

static bool
read_tries(struct asking *k, const struct tables *now, struct tried *tried, bool *limits)
{
    const struct what_if *q = k->what_if;
    for (size_t i = 0; i < q->try_count; i++) {
        struct tried *t = &tried[i];
        if (!read_try(k->arena, q->tries[i], t))
            return failure_say(k->failure,
                               "cannot try '%s': say it like 'lactose 0.5 g', 'wider/fructan 0.4 "
                               "g', 'courgette fructan 0.3 g' or 'blueberry serve 30 g'",
                               q->tries[i]);
        t->phase_number =
            t->phase.length > 0 ? limits_phase(&now->limits, t->phase) : now->site.phase;
        if (t->phase_number < 0)
            return failure_say(k->failure, "there is no phase '%.*s'", SLICE_ARGS(t->phase));
        *limits = *limits || t->food.length == 0;
    }
    return true;
}

static enum answer_of_tables
try_figures(struct asking *k, struct table_layers *layers, struct tables *out)
{
    struct tried tried[TRIES_MOST];
    struct what_if *q = k->what_if;
    bool limits = false;
    layers->passing = true;
    if (!tables_load(k->arena, layers, NULL, out, k->failure))
        return TABLES_FAILED;
    if (!read_tries(k, out, tried, &limits))
        return TABLES_MISASKED;
    if (limits && (!write_limits(k, tried, &out->limits, &layers->folders[layers->count++]) ||
                   !tables_load(k->arena, layers, NULL, out, k->failure)))
        return TABLES_FAILED;
    for (size_t i = 0; i < q->try_count; i++)
        if (tried[i].food.length > 0 && !set_content(k, out, &tried[i]))
            return TABLES_MISASKED;
    return TABLES_ANSWERED;
}

enum answer_of_tables
what_if_tables(struct what_if *q, struct arena *a, const struct table_layers *now,
               struct tables *out, struct failure *f)
{
    struct asking k = {q, a, f};
    struct table_layers layers;
    if (!make_temporary(&k))
        return TABLES_FAILED;
    enum answer_of_tables answer = list_layers(&k, now, &layers);
    if (answer == TABLES_ANSWERED)
        answer = try_figures(&k, &layers, out);
    return answer;
}
