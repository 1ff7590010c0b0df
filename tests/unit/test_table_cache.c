#include "own_tables.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#include "tables/food_names.h"
#include "tables/larder.h"
#include "tables/larder_rows.h"
#include "tables/table_ask.h"
#include "tables/table_store.h"

static const char measures[] =
    "units:\n"
    "  cup: {kind: volume, words: [cup]}\n"
    "regions:\n"
    "  us: {name: US, units: {cup: {mid: 236, source: s, basis: published}}}\n";
static const char limits[] =
    "phases: {strict: {groups: {lactose: {grams: 1, source: s, basis: published}}}}\n";
static const char other_limits[] =
    "phases: {strict: {groups: {lactose: {grams: 2, source: s, basis: published}}}}\n";
static const char foods[] =
    "foods:\n"
    "  thing: {name: thing, class: fruit, forms: {whole: {density: {mid: 0.5, source: s, basis: "
    "published}}}}\n";

struct place_of_test {
    char folder[64], cache[80], file[120];
};

/* a folder of small tables, and one for the cache */
static void
build_out(struct place_of_test *p)
{
    char path[160];
    snprintf(p->folder, sizeof p->folder, "/tmp/dariole-tables-XXXXXX");
    assert_non_null(mkdtemp(p->folder));
    snprintf(p->cache, sizeof p->cache, "%s/cache", p->folder);
    snprintf(path, sizeof path, "%s/foods", p->folder);
    assert_int_equal(mkdir(path, 0700), 0);
    snprintf(path, sizeof path, "%s/measures.yaml", p->folder);
    write_file(path, measures);
    snprintf(path, sizeof path, "%s/limits.yaml", p->folder);
    write_file(path, limits);
    snprintf(p->file, sizeof p->file, "%s/foods/all.yaml", p->folder);
    write_file(p->file, foods);
}

static void
clear_away(const struct place_of_test *p)
{
    char command[120];
    snprintf(command, sizeof command, "rm -r %s", p->folder);
    assert_int_equal(system(command), 0);
}

static struct tables *
load(struct arena *a, const struct place_of_test *p, const char *cache)
{
    struct table_layers layers = {.folders = {p->folder}, .count = 1};
    struct failure f = {""};
    struct tables *t = arena_take(a, sizeof *t);
    if (!tables_load(a, &layers, cache, t, &f))
        fail_msg("%s", f.text);
    return t;
}

/* the one image of the part */
static char *
cache_file(const struct place_of_test *p, const char *part, char path[200])
{
    char command[160];
    snprintf(command, sizeof command, "ls -d %s/tables-*-%s*", p->cache, part);
    FILE *list = popen(command, "r");
    assert_non_null(list);
    assert_non_null(fgets(path, 200, list));
    path[strcspn(path, "\n")] = '\0';
    assert_null(fgets(command, sizeof command, list)); /* nothing left lying about */
    pclose(list);
    return path;
}

static int
images_kept(const struct place_of_test *p, const char *part)
{
    char command[160];
    int count = -1;
    snprintf(command, sizeof command, "ls -A %s | grep -c '^tables-[0-9a-f]*-%s$'", p->cache, part);
    FILE *list = popen(command, "r");
    assert_non_null(list);
    assert_int_equal(fscanf(list, "%d", &count), 1);
    pclose(list);
    return count;
}

static double
density(const struct tables *t)
{
    return larder_by_id(t->larder, SLICE("thing"))->forms[0].density.span.mid;
}

static void
cached_tables_are_the_same(void **state)
{
    (void)state;
    struct place_of_test p;
    build_out(&p);
    struct arena *a = arena_open(1 << 16);
    const struct tables *plain = load(a, &p, ""), *first = load(a, &p, p.cache),
                        *second = load(a, &p, p.cache);
    char path[200];
    cache_file(&p, "foods", path);
    cache_file(&p, "rules", path);
    assert_true(plain->digest == first->digest && plain->digest == second->digest);
    const struct tables *all[] = {plain, first, second};
    for (size_t i = 0; i < 3; i++) {
        struct sought s = {.name = SLICE("things"), .by = BY_CUP};
        struct found f = food_find(all[i]->larder, a, &s, NULL);
        assert_string_equal(f.food->id, "thing");
        assert_string_equal(f.form->density.source, "s");
        assert_true(measures_unit(&all[i]->measures, 0, SLICE("Cups"), NULL) == NULL);
        assert_true(measures_unit(&all[i]->measures, 0, SLICE("Cup"), NULL)->unit.size.mid == 236);
        assert_string_equal(all[i]->site.title, "Untitled kitchen"); /* a constant of the program */
        assert_true(limit_for(&all[i]->limits.phases[0], LACTOSE, CLASS_DAIRY, NULL)->span.mid ==
                    1);
    }
    arena_close(a);
    clear_away(&p);
}

static void
a_changed_file_is_read_again(void **state)
{
    (void)state;
    struct place_of_test p;
    build_out(&p);
    struct arena *a = arena_open(1 << 16);
    uint64_t before = load(a, &p, p.cache)->digest;
    write_file(p.file,
               "foods:\n  thing: {name: thing, class: fruit, forms: {whole: {density: {mid: "
               "0.7, source: s, basis: published}}}}\n");
    const struct tables *t = load(a, &p, p.cache);
    assert_true(density(t) == 0.7);
    assert_true(t->digest != before);
    write_file(p.file, foods);
    assert_true(load(a, &p, p.cache)->digest == before);
    arena_close(a);
    clear_away(&p);
}

static void
damage(const char *part)
{
    struct place_of_test p;
    build_out(&p);
    struct arena *a = arena_open(1 << 16);
    char path[200], bytes[1 << 18];
    uint64_t digest = load(a, &p, p.cache)->digest;
    FILE *file = fopen(cache_file(&p, part, path), "r");
    size_t length = fread(bytes, 1, sizeof bytes, file);
    fclose(file);
    assert_true(length > 1000 && length < sizeof bytes);
    for (size_t at = 0; at < length; at += at < 200 ? 1 : length / 97) {
        file = fopen(path, "w");
        bytes[at] = (char)(bytes[at] ^ 0x41);
        assert_int_equal(fwrite(bytes, 1, length, file), length);
        fclose(file);
        bytes[at] = (char)(bytes[at] ^ 0x41);
        struct arena *one = arena_open(1 << 16);
        const struct tables *t = load(one, &p, p.cache);
        assert_true(t->digest == digest && density(t) == 0.5);
        arena_close(one);
    }
    for (size_t keep = 0; keep < length; keep = keep * 2 + 1) {
        assert_int_equal(truncate(path, (off_t)keep), 0);
        struct arena *one = arena_open(1 << 16);
        assert_true(load(one, &p, p.cache)->digest == digest);
        arena_close(one);
    }
    arena_close(a);
    clear_away(&p);
}

static void
a_damaged_cache_is_built_again(void **state)
{
    (void)state;
    damage("foods");
    damage("rules");
}

static void
a_changed_limit_leaves_the_foods_alone(void **state)
{
    (void)state;
    struct place_of_test p;
    char path[200];
    build_out(&p);
    struct arena *a = arena_open(1 << 16);
    uint64_t before = load(a, &p, p.cache)->digest;
    snprintf(path, sizeof path, "%s/limits.yaml", p.folder);
    write_file(path, other_limits);
    const struct tables *t = load(a, &p, p.cache), *again = load(a, &p, "");
    assert_true(limit_for(&t->limits.phases[0], LACTOSE, CLASS_DAIRY, NULL)->span.mid == 2);
    assert_true(t->digest != before && t->digest == again->digest);
    assert_int_equal(images_kept(&p, "foods"), 1);
    assert_int_equal(images_kept(&p, "rules"), 2); /* a limit that is put back is there at once */
    arena_close(a);
    clear_away(&p);
}

/* sets the times of an image so many seconds back */
static void
used_before(const char *path, long seconds)
{
    struct timespec then[2] = {{time(NULL) - seconds, 0}, {time(NULL) - seconds, 0}};
    assert_int_equal(utimensat(AT_FDCWD, path, then, 0), 0);
}

static void
those_longest_unused_go(void **state)
{
    (void)state;
    struct place_of_test p;
    char foods_image[200], path[200];
    struct stat st;
    build_out(&p);
    struct arena *a = arena_open(1 << 16);
    load(a, &p, p.cache);
    used_before(cache_file(&p, "foods", foods_image), 9000);
    snprintf(path, sizeof path, "%s/tables-0123.7.8.new", p.cache); /* of a run that was killed */
    write_file(path, "half an im");
    used_before(path, 8000);
    for (int i = 0; i < 40; i++) {
        char text[200];
        snprintf(path, sizeof path, "%s/limits.yaml", p.folder);
        snprintf(text, sizeof text,
                 "phases: {strict: {groups: {lactose: {grams: %d, source: s, basis: "
                 "published}}}}\n",
                 i + 10);
        write_file(path, text);
        load(a, &p, p.cache);
    }
    assert_int_equal(images_kept(&p, "foods"), 1); /* it was used all the time */
    assert_int_equal(stat(foods_image, &st), 0);
    assert_true(st.st_mtime > time(NULL) - 3600);
    assert_int_equal(images_kept(&p, "rules"), STORE_IMAGES_MOST - 1);
    snprintf(path, sizeof path, "%s/tables-0123.7.8.new", p.cache);
    assert_int_not_equal(stat(path, &st), 0);
    arena_close(a);
    clear_away(&p);
}

/* whoever may write to an image may have put anything into it, checksum and all */
static void
an_image_others_may_write_to_is_not_read(void **state)
{
    (void)state;
    struct place_of_test p;
    char path[200], staged[220];
    size_t length = 0;
    struct image_key keys[TABLE_PARTS];
    struct table_files files;
    struct failure f = {""};
    build_out(&p);
    struct table_layers layers = {.folders = {p.folder}, .count = 1};
    struct arena *a = arena_open(1 << 16);
    assert_true(table_files_list(a, &layers, &files, &f));
    assert_true(table_files_key(&files, keys));
    load(a, &p, p.cache);
    cache_file(&p, "foods", path);
    struct stat st;
    assert_int_equal(stat(path, &st), 0);
    assert_int_equal(st.st_mode & 07777, 0600);
    assert_int_equal(stat(p.cache, &st), 0);
    assert_int_equal(st.st_mode & 07777, 0700);
    assert_non_null(table_store_read(a, p.cache, PART_FOODS, keys[PART_FOODS], &length));
    assert_int_equal(chmod(path, 0620), 0);
    assert_null(table_store_read(a, p.cache, PART_FOODS, keys[PART_FOODS], &length));
    assert_int_equal(chmod(path, 0602), 0);
    assert_null(table_store_read(a, p.cache, PART_FOODS, keys[PART_FOODS], &length));
    assert_int_equal(chmod(path, 0600), 0);
    snprintf(staged, sizeof staged, "%s.aside", path);
    assert_int_equal(rename(path, staged), 0);
    assert_int_equal(symlink(staged, path), 0);
    assert_null(table_store_read(a, p.cache, PART_FOODS, keys[PART_FOODS], &length));
    assert_true(density(load(a, &p, p.cache)) == 0.5); /* and is kept anew, the link gone */
    assert_non_null(table_store_read(a, p.cache, PART_FOODS, keys[PART_FOODS], &length));
    if (geteuid() == 0) {
        assert_int_equal(chown(path, 12345, 12345), 0);
        assert_null(table_store_read(a, p.cache, PART_FOODS, keys[PART_FOODS], &length));
    }
    arena_close(a);
    clear_away(&p);
}

static void
layers_in_passing_leave_no_image(void **state)
{
    (void)state;
    struct place_of_test p;
    struct stat st;
    struct failure f = {""};
    build_out(&p);
    struct arena *a = arena_open(1 << 16);
    struct table_layers layers = {.folders = {p.folder}, .count = 1, .passing = true};
    struct tables *t = arena_take(a, sizeof *t);
    assert_true(tables_load(a, &layers, p.cache, t, &f));
    assert_true(density(t) == 0.5);
    assert_int_not_equal(stat(p.cache, &st), 0);
    load(a, &p, p.cache);
    assert_true(tables_load(a, &layers, p.cache, t, &f)); /* but one that is there is taken */
    assert_true(density(t) == 0.5);
    arena_close(a);
    clear_away(&p);
}

static void
set_or_unset(const char *name, const char *value)
{
    if (value != NULL)
        assert_int_equal(setenv(name, value, 1), 0);
    else
        assert_int_equal(unsetenv(name), 0);
}

static void
the_users_folder_is_that_of_the_specification(void **state)
{
    (void)state;
    static const char *const asked[][3] = {
        {"/x/cache", "/home/y", "/x/cache/dariole"},
        {NULL, "/home/y", "/home/y/.cache/dariole"},
        {"", "/home/y", "/home/y/.cache/dariole"},
        {"relative", "/home/y", "/home/y/.cache/dariole"},
        {"relative", NULL, NULL},
        {NULL, "", NULL},
    };
    struct arena *a = arena_open(1 << 16);
    const char *xdg = getenv("XDG_CACHE_HOME"), *home = getenv("HOME");
    xdg = xdg != NULL ? slice_string(a, slice_of(xdg)) : NULL;
    home = home != NULL ? slice_string(a, slice_of(home)) : NULL;
    for (size_t i = 0; i < sizeof asked / sizeof *asked; i++) {
        set_or_unset("XDG_CACHE_HOME", asked[i][0]);
        set_or_unset("HOME", asked[i][1]);
        const char *folder = table_store_user(a);
        if (asked[i][2] == NULL)
            assert_null(folder);
        else
            assert_string_equal(folder, asked[i][2]);
    }
    set_or_unset("XDG_CACHE_HOME", xdg);
    set_or_unset("HOME", home);
    arena_close(a);
}

static void
without_a_place_for_it_there_is_no_cache(void **state)
{
    (void)state;
    struct place_of_test p;
    build_out(&p);
    struct arena *a = arena_open(1 << 16);
    uint64_t digest = load(a, &p, "")->digest;
    write_file(p.cache, "in the way"); /* a file where the folder should be */
    assert_true(load(a, &p, p.cache)->digest == digest);
    arena_close(a);
    clear_away(&p);
}

static void
what_is_wrong_names_its_file(void **state)
{
    (void)state;
    struct place_of_test p;
    build_out(&p);
    struct arena *a = arena_open(1 << 16);
    write_file(p.file, "foods:\n  thing: {name: thing, class: fruit, forms: {whole: {}}}\n"
                       "  other: {name: other, class: stone, forms: {whole: {}}}\n");
    for (int i = 0; i < 2; i++) { /* from the cache, too */
        const struct tables *t = load(a, &p, p.cache);
        assert_int_equal(larder_count(t->larder), 1);
        assert_true(t->notice_count >= 1);
        assert_string_equal(t->notices[0].path, p.file);
        assert_int_equal(t->notices[0].notice.place.line, 3);
        assert_true(slice_is(t->notices[0].notice.what, "other"));
    }
    write_file(p.file, "foods: [unclosed");
    const struct tables *t = load(a, &p, p.cache);
    assert_int_equal(larder_count(t->larder), 0);
    assert_int_equal(t->notices[0].notice.rule, RULE_YAML_BROKEN);
    arena_close(a);
    clear_away(&p);
}

static void
a_layer_lies_over_another(void **state)
{
    (void)state;
    struct place_of_test p, q;
    build_out(&p);
    build_out(&q);
    struct arena *a = arena_open(1 << 16);
    struct table_layers layers = {.folders = {p.folder, q.folder}, .count = 2};
    struct failure f = {""};
    struct tables *t = arena_take(a, sizeof *t);
    write_file(q.file, "foods:\n"
                       "  thing: {name: thing, class: fruit, forms: {whole: {density: {mid: 0.9, "
                       "source: own, basis: measured}}}}\n"
                       "  more: {name: more, class: other, forms: {whole: {}}}\n");
    assert_true(tables_load(a, &layers, "", t, &f));
    assert_true(density(t) == 0.9);
    assert_int_equal(larder_count(t->larder), 2);
    arena_close(a);
    clear_away(&p);
    clear_away(&q);
}

static void
no_tables_at_all_is_a_failure(void **state)
{
    (void)state;
    struct arena *a = arena_open(1 << 16);
    struct table_layers layers = {.folders = {"/nowhere/at/all"}, .count = 1};
    struct failure f = {""};
    struct tables *t = arena_take(a, sizeof *t);
    assert_false(tables_load(a, &layers, "", t, &f));
    assert_true(f.text[0] != '\0');
    arena_close(a);
}

static void
sources_are_spelled_out(void **state)
{
    (void)state;
    struct arena *a = arena_open(1 << 16);
    const struct tables *t = repository_tables(a);
    const char *words = tables_source(t, a, "sr28 09040 1 cup = 225 g; common practice, no source");
    assert_non_null(strstr(words, "National Nutrient Database"));
    assert_non_null(strstr(words, ": 09040 1 cup = 225 g; common practice, no source"));
    assert_string_equal(tables_source(t, a, "own scales"), "own scales");
    assert_string_equal(tables_source(t, a, ""), "");
    arena_close(a);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(cached_tables_are_the_same),
        cmocka_unit_test(a_changed_file_is_read_again),
        cmocka_unit_test(a_damaged_cache_is_built_again),
        cmocka_unit_test(a_changed_limit_leaves_the_foods_alone),
        cmocka_unit_test(those_longest_unused_go),
        cmocka_unit_test(an_image_others_may_write_to_is_not_read),
        cmocka_unit_test(layers_in_passing_leave_no_image),
        cmocka_unit_test(the_users_folder_is_that_of_the_specification),
        cmocka_unit_test(without_a_place_for_it_there_is_no_cache),
        cmocka_unit_test(what_is_wrong_names_its_file),
        cmocka_unit_test(a_layer_lies_over_another),
        cmocka_unit_test(no_tables_at_all_is_a_failure),
        cmocka_unit_test(sources_are_spelled_out),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
