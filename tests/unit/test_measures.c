#include "own_tables.h"
#include "tables/measure_rows.h"
#include "tables/table_ask.h"

static double
size_of(const struct tables *t, const char *region, const char *words)
{
    int r = measures_region(&t->measures, slice_of(region));
    assert_true(r >= 0);
    const struct unit_row *row = measures_unit(&t->measures, r, slice_of(words), NULL);
    return row != NULL ? row->unit.size.mid : -1;
}

static void
regions_differ_exactly(void **state)
{
    const struct tables *t = *state;
    /* NIST Handbook 44 appendix C; 21 CFR 101.9(b)(5)(viii); Weights and Measures Act 1985 (UK) */
    assert_true(size_of(t, "us", "cup") == 236.5882365);
    assert_true(size_of(t, "us", "tbsp") == 14.78676478125);
    assert_true(size_of(t, "us-label", "cup") == 240);
    assert_true(size_of(t, "us-label", "fl oz") == 30);
    assert_true(size_of(t, "au", "tablespoons") == 20);
    assert_true(size_of(t, "nz", "tablespoons") == 15);
    assert_true(size_of(t, "uk", "pint") == 568.26125);
    assert_true(size_of(t, "jp", "cup") == 200);
    assert_true(size_of(t, "ca", "cups") == 250);
    assert_true(size_of(t, "us", "lb") == 453.59237);
    assert_int_equal(measures_region(&t->measures, SLICE("mars")), -1);
}

static void
spellings_are_found(void **state)
{
    const struct tables *t = *state;
    assert_true(size_of(t, "au", "T") == 20);
    assert_true(size_of(t, "au", "t") == 5);
    assert_true(size_of(t, "au", "T.") == 20);
    assert_true(size_of(t, "au", "TBSP.") == 20);
    assert_true(size_of(t, "us", "fl. oz.") == 29.5735295625);
    assert_true(size_of(t, "us", "Fluid  Ounces") == 29.5735295625);
    assert_true(size_of(t, "us", "c.") == 236.5882365);
    assert_true(size_of(t, "uk", "Litres") == 1000);
    assert_true(size_of(t, "uk", "gm") == 1);
    assert_true(size_of(t, "uk", "tbps") < 0);
    assert_true(size_of(t, "uk", "") < 0);
    assert_true(size_of(t, "uk", "a very long string of words that can be no unit at all") < 0);
    assert_true(size_of(t, "uk", "gou") < 0); /* only Japan has it */
}

static void
looks_are_noted_found_or_not(void **state)
{
    const struct tables *t = *state;
    struct arena *a = arena_open(4096);
    struct reads r = reads_new(a);
    int au = measures_region(&t->measures, SLICE("au"));
    assert_non_null(measures_unit(&t->measures, au, SLICE("tbsp"), &r));
    assert_null(measures_unit(&t->measures, au, SLICE("tbps"), &r));
    assert_null(measures_unit(&t->measures, au, SLICE("tbsp flour"), &r));
    assert_non_null(measures_fill(&t->measures, FILL_HEAPED, &r));
    assert_int_equal(r.count, 4); /* word:au/tbsp, unit:au/tbsp, word:au/tbps, fill:heaped */
    for (size_t i = 0; i < r.count; i++) {
        const struct entry *e = r.items[i];
        assert_true(e->digest == tables_ask(t, a, slice_of(e->key)));
    }
    arena_close(a);
}

static void
near_spellings_are_named(void **state)
{
    const struct tables *t = *state;
    const char *nearest[3];
    measures_nearest(&t->measures, 0, SLICE("tbps"), nearest);
    assert_string_equal(nearest[0], "tbsp");
    measures_nearest(&t->measures, 0, SLICE("teapsoons"), nearest);
    assert_string_equal(nearest[0], "teaspoons");
    measures_nearest(&t->measures, 0, SLICE("TBPS"), nearest);
    assert_string_equal(nearest[0], "tbsp");
    measures_nearest(&t->measures, 0, SLICE("xyzzyx"), nearest);
    assert_null(nearest[0]);
}

static void
a_layer_overrides_unit_by_unit(void **state)
{
    (void)state;
    struct arena *a = arena_open(1 << 16);
    struct notices n = {.arena = a};
    struct measures *m = arena_take(a, sizeof *m);
    measure_rows_take(
        a,
        yaml_of(a,
                "units:\n"
                "  cup: {kind: volume, words: [cup]}\n"
                "  g: {kind: weight, words: [g], size: {mid: 1, source: s, basis: "
                "published}}\n"
                "regions:\n"
                "  us: {name: US, units: {cup: {mid: 236, source: s, basis: published}}}\n",
                &n),
        &n, m);
    measure_rows_take(a,
                      yaml_of(a,
                              "units:\n  bad: {kind: wide, words: [bad]}\n"
                              "regions:\n  us: {units: {cup: {mid: 240, source: own, basis: "
                              "measured}}}\n",
                              &n),
                      &n, m);
    measure_rows_build(a, m);
    assert_int_equal(n.count, 1);
    assert_int_equal(n.items[0].rule, RULE_TABLE_ROW_WRONG);
    assert_int_equal(n.items[0].place.line, 2);
    assert_true(measures_unit(m, 0, SLICE("cup"), NULL)->unit.size.mid == 240);
    assert_true(measures_unit(m, 0, SLICE("g"), NULL)->unit.size.mid == 1);
    assert_null(measures_unit(m, 0, SLICE("bad"), NULL));
    arena_close(a);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(regions_differ_exactly),
        cmocka_unit_test(spellings_are_found),
        cmocka_unit_test(looks_are_noted_found_or_not),
        cmocka_unit_test(near_spellings_are_named),
        cmocka_unit_test(a_layer_overrides_unit_by_unit),
    };
    return cmocka_run_group_tests(tests, take_repository_tables, drop_repository_tables);
}
