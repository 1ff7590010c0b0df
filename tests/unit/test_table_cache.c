#include "own_tables.h"

#include <sys/stat.h>

#include "tables/larder.h"

static const char measures[] =
    "units:\n"
    "  cup: {kind: volume, words: [cup]}\n"
    "regions:\n"
    "  us: {name: US, units: {cup: {mid: 236, source: s, basis: published}}}\n";
static const char limits[] =
    "phases: {strict: {groups: {lactose: {per-portion: 1, source: s, basis: published}}}}\n";
static const char other_limits[] =
    "phases: {strict: {groups: {lactose: {per-portion: 2, source: s, basis: published}}}}\n";
static const char foods[] =
    "foods:\n"
    "  thing: {name: thing, class: fruit, forms: {whole: {density: {mid: 0.5, source: s, basis: "
    "published}}}}\n";

struct place_of_test {
    char folder[64], cache[80], file[120];
};

/* a folder of small tables, and one for the cache */
static void
lay_out(struct place_of_test *p)
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
    struct table_layers layers = {{p->folder}, 1, NULL};
    struct failure f = {""};
    struct tables *t = arena_take(a, sizeof *t);
    if (!tables_load(a, &layers, cache, t, &f))
        fail_msg("%s", f.text);
    return t;
}

static char *
cache_file(const struct place_of_test *p, const char *part, char path[200])
{
    char command[160];
    snprintf(command, sizeof command, "ls -d %s/tables-*-%s*", p->cache, part);
    FILE *list = popen(command, "r");
    assert_non_null(list);
    assert_non_null(fgets(path, 200, list));
    path[strcspn(path, "\n")] = '\0';
    assert_null(fgets(command, sizeof command, list)); /* one file, nothing left lying about */
    pclose(list);
    return path;
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
    lay_out(&p);
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
        struct found f = larder_find(all[i]->larder, a, &s, NULL);
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
    lay_out(&p);
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
    lay_out(&p);
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

static ino_t
file_number(const char *path)
{
    struct stat s;
    assert_int_equal(stat(path, &s), 0);
    return s.st_ino;
}

/* a cache that is written anew is another file */
static void
a_changed_limit_leaves_the_foods_alone(void **state)
{
    (void)state;
    struct place_of_test p;
    char foods_cache[200], rules_cache[200], path[200];
    lay_out(&p);
    struct arena *a = arena_open(1 << 16);
    uint64_t before = load(a, &p, p.cache)->digest;
    ino_t foods_before = file_number(cache_file(&p, "foods", foods_cache));
    ino_t rules_before = file_number(cache_file(&p, "rules", rules_cache));
    snprintf(path, sizeof path, "%s/limits.yaml", p.folder);
    write_file(path, other_limits);
    const struct tables *t = load(a, &p, p.cache), *again = load(a, &p, "");
    assert_true(limit_for(&t->limits.phases[0], LACTOSE, CLASS_DAIRY, NULL)->span.mid == 2);
    assert_true(t->digest != before && t->digest == again->digest);
    assert_true(file_number(foods_cache) == foods_before);
    assert_true(file_number(rules_cache) != rules_before);
    arena_close(a);
    clear_away(&p);
}

static void
without_a_place_for_it_there_is_no_cache(void **state)
{
    (void)state;
    struct place_of_test p;
    lay_out(&p);
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
    lay_out(&p);
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
    lay_out(&p);
    lay_out(&q);
    struct arena *a = arena_open(1 << 16);
    struct table_layers layers = {{p.folder, q.folder}, 2, NULL};
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
    struct table_layers layers = {{"/nowhere/at/all"}, 1, NULL};
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
        cmocka_unit_test(without_a_place_for_it_there_is_no_cache),
        cmocka_unit_test(what_is_wrong_names_its_file),
        cmocka_unit_test(a_layer_lies_over_another),
        cmocka_unit_test(no_tables_at_all_is_a_failure),
        cmocka_unit_test(sources_are_spelled_out),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
