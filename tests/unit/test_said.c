/* What a rule must hear however it is said, and what it must leave alone: tests/said/NAME.tsv, NAME
 * being a rule or a caution. Each line: yes or no, then after tabs ingredient lines (divided by ;),
 * steps (by |), and as far as there are any notes, title, keys of the front matter (by |), prose.
 */
#include <dirent.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "compile/compile.h"
#include "whole_post.h"

enum { CELLS = 7, FILES_MOST = 200 };

static struct slice
file_read(struct arena *a, const char *path)
{
    struct text t = text_new(a);
    FILE *file = fopen(path, "r");
    assert_non_null(file);
    for (int c; (c = fgetc(file)) != EOF;)
        text_add_byte(&t, (char)c);
    fclose(file);
    return text_slice(&t);
}

/* the cells of a line, missing ones empty */
static void
cells_of(struct arena *a, struct slice line, const char *cells[CELLS])
{
    for (size_t i = 0; i < CELLS; i++) {
        size_t end = slice_find_byte(line, '\t', 0);
        end = end == SIZE_MAX ? line.length : end;
        cells[i] = slice_string(a, slice_part(line, 0, end));
        line = slice_part(line, end + 1, line.length);
    }
}

static const char *
post_of(struct arena *a, const char *const cells[CELLS])
{
    const char *title = cells[4][0] != '\0' ? cells[4] : "Supper";
    struct text keys = text_new(a), post = text_new(a);
    struct slice rest = slice_of(cells[5]);
    while (rest.length > 0) {
        size_t end = slice_find_byte(rest, '|', 0);
        end = end == SIZE_MAX ? rest.length : end;
        text_addf(&keys, "%.*s\n", SLICE_ARGS(slice_trim(slice_part(rest, 0, end))));
        rest = slice_part(rest, end + 1, rest.length);
    }
    const char *bytes = compose(a, title, keys.length > 0 ? keys.bytes : "", cells[1], cells[2],
                                cells[3][0] != '\0' ? cells[3] : NULL);
    struct slice all = slice_of(bytes);
    size_t method = slice_find(all, "## Method", 0), portions = slice_find(all, "portions: 4\n", 0);
    if (slice_find(slice_of(cells[5]), "serves:", 0) != SIZE_MAX ||
        slice_find(slice_of(cells[5]), "portion:", 0) != SIZE_MAX) {
        text_add(&post, slice_part(all, 0, portions));
        all = slice_part(all, portions + 12, all.length);
        method -= portions + 12;
    }
    text_addf(&post, "%.*s%s\n\n%.*s", SLICE_ARGS(slice_part(all, 0, method)), cells[6],
              SLICE_ARGS(slice_part(all, method, all.length)));
    return post.bytes;
}

static const struct outcome *
compiled(struct arena *a, const char *post)
{
    struct reads *reads = arena_take(a, sizeof *reads);
    struct outcome *o = arena_take(a, sizeof *o);
    const struct compile_sources sources = {&tables, NULL, NULL};
    const struct post_bytes bytes = {.path = "a-dish.md", .bytes = slice_of(post)};
    *reads = reads_new(a);
    compile_post(a, &sources, &bytes, reads, o);
    return o;
}

/* whether a rule or caution of that name speaks, whatever its level */
static bool
outcome_says(const struct outcome *o, const char *name)
{
    for (size_t i = 0; i < o->findings.count; i++)
        if (strcmp(rules_row(o->findings.items[i].rule)->id, name) == 0)
            return true;
    for (size_t i = 0; i < o->hazards.count; i++)
        if (strcmp(o->hazards.items[i].caution->id, name) == 0)
            return true;
    return false;
}

static size_t
try_file(const char *file)
{
    struct arena *a = arena_open(1 << 16);
    const char *name = slice_string(a, slice_part(slice_of(file), 0, strlen(file) - 4));
    struct slice all = file_read(a, text_format(a, "tests/said/%s", file));
    size_t wrong = 0, yes = 0, no = 0;
    for (size_t at = 0; at < all.length;) {
        size_t end = slice_find_byte(all, '\n', at);
        end = end == SIZE_MAX ? all.length : end;
        const struct slice line = slice_part(all, at, end);
        const char *cells[CELLS];
        at = end + 1;
        if (line.length == 0 || line.at[0] == '#')
            continue;
        cells_of(a, line, cells);
        const bool expected = strcmp(cells[0], "yes") == 0;
        *(expected ? &yes : &no) += 1;
        if (outcome_says(compiled(a, post_of(a, cells)), name) == expected)
            continue;
        print_error("%s %s: %.*s\n", name, expected ? "is silent" : "speaks", SLICE_ARGS(line));
        wrong++;
    }
    if (yes < 6 || no < 6) {
        print_error("%s: %zu ways to say it and %zu near misses; 6 of each are wanted\n", name, yes,
                    no);
        wrong++;
    }
    arena_close(a);
    return wrong;
}

static void
hears_what_is_said_and_no_more(void **state)
{
    (void)state;
    struct dirent **names;
    size_t wrong = 0;
    const int count = scandir("tests/said", &names, NULL, alphasort);
    assert_true(count > 2 && count < FILES_MOST);
    for (int i = 0; i < count; i++) {
        if (slice_ends(slice_of(names[i]->d_name), ".tsv"))
            wrong += try_file(names[i]->d_name);
        free(names[i]);
    }
    free(names);
    assert_int_equal(wrong, 0);
}

/* a warning or error of the method, its times, heats and claims, of which a careful post has none
 */
static bool
alarms(const struct outcome *o, const char **rule)
{
    static const char *const scope[] = {"food-unlisted", "ingredient-", "time-",  "heat-",
                                        "microwave-",    "safety",      "claim-", "step-amounts",
                                        "yield-",        "tool-",       "part-",  "strained-"};
    for (size_t i = 0; i < o->findings.count; i++) {
        const struct finding *f = &o->findings.items[i];
        *rule = rules_row(f->rule)->id;
        for (size_t k = 0; k < sizeof scope / sizeof *scope && f->level >= LEVEL_WARNING; k++)
            if (slice_begins(slice_of(*rule), scope[k]))
                return true;
    }
    return false;
}

/* whether one of the names, divided by commas, speaks */
static bool
any_speaks(const struct outcome *o, struct slice names)
{
    for (size_t at = 0; at < names.length;) {
        size_t end = slice_find_byte(names, ',', at);
        end = end == SIZE_MAX ? names.length : end;
        char name[80];
        snprintf(name, sizeof name, "%.*s", SLICE_ARGS(slice_part(names, at, end)));
        if (outcome_says(o, name))
            return true;
        at = end + 1;
    }
    return false;
}

struct score {
    size_t faults, found, careful, quiet;
};

static void
score_round(const char *path, struct score *s)
{
    struct arena *a = arena_open(1 << 16);
    const struct slice all = file_read(a, path);
    for (size_t at = 0; at < all.length;) {
        size_t end = slice_find_byte(all, '\n', at);
        end = end == SIZE_MAX ? all.length : end;
        const struct slice line = slice_part(all, at, end);
        const char *cells[CELLS], *rule = "";
        at = end + 1;
        if (line.length == 0 || line.at[0] == '#')
            continue;
        cells_of(a, line, cells);
        const struct outcome *o = compiled(a, post_of(a, cells));
        const bool careful = strcmp(cells[0], "none") == 0;
        const bool right = careful ? !alarms(o, &rule) : any_speaks(o, slice_of(cells[0]));
        *(careful ? &s->careful : &s->faults) += 1;
        *(careful ? &s->quiet : &s->found) += right;
        if (!right)
            print_error("%s: %s %.*s\n", path, rule, SLICE_ARGS(line));
    }
    arena_close(a);
}

static void
keeps_what_rounds_taught(void **state)
{
    (void)state;
    struct score s = {0};
    score_round("tests/rounds/round-1.tsv", &s);
    score_round("tests/rounds/round-2.tsv", &s);
    score_round("tests/rounds/round-3.tsv", &s);
    score_round("tests/rounds/round-4.tsv", &s);
    score_round("tests/rounds/round-5.tsv", &s);
    assert_true(s.faults > 220 && s.careful > 110);
    assert_true(s.found * 100 >= s.faults * 97);
    assert_true(s.quiet * 100 >= s.careful * 97);
}

/* each caution has a file of its own: six ways to say it and six near misses */
static void
every_caution_is_tried(void **state)
{
    (void)state;
    for (size_t i = 0; i < tables.cautions.count; i++) {
        char path[200];
        snprintf(path, sizeof path, "tests/said/%s.tsv", tables.cautions.items[i].id);
        FILE *file = fopen(path, "r");
        if (file == NULL)
            fail_msg("%s is wanted", path);
        fclose(file);
    }
}

int
main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(hears_what_is_said_and_no_more),
                                       cmocka_unit_test(every_caution_is_tried),
                                       cmocka_unit_test(keeps_what_rounds_taught)};
    return cmocka_run_group_tests(tests, load_tables, drop_tables);
}
