#include "own_tables.h"
#include "tables/table_ask.h"

#include <math.h>

static double
limit_of(const struct tables *t, const char *phase, enum group g, enum food_class c)
{
    int p = limits_phase(&t->limits, slice_of(phase));
    assert_true(p >= 0);
    const struct figure *f = limit_for(&t->limits.phases[p], g, c, NULL);
    return f != NULL ? f->span.mid : -1;
}

/* Varney et al., J Gastroenterol Hepatol 2017; 32 Suppl 1: 53-61 */
static void
the_published_cut_offs_stand(void **state)
{
    const struct tables *t = *state;
    static const enum food_class larger[] = {CLASS_GRAIN, CLASS_LEGUME, CLASS_NUT, CLASS_SEED};
    for (int c = 0; c < CLASSES; c++) {
        double oligosaccharides = 0.20;
        for (size_t i = 0; i < sizeof larger / sizeof *larger; i++)
            if ((int)larger[i] == c)
                oligosaccharides = 0.30;
        enum food_class class = (enum food_class)c;
        assert_true(limit_of(t, "strict", OLIGOSACCHARIDES, class) == oligosaccharides);
        assert_true(limit_of(t, "strict", FRUCTAN, class) == oligosaccharides);
        assert_true(limit_of(t, "strict", GALACTO_OLIGOSACCHARIDE, class) == oligosaccharides);
        assert_true(limit_of(t, "strict", SORBITOL, class) == 0.20);
        assert_true(limit_of(t, "strict", MANNITOL, class) == 0.20);
        assert_true(limit_of(t, "strict", POLYOLS, class) == 0.40);
        assert_true(limit_of(t, "strict", EXCESS_FRUCTOSE, class) == 0.15);
        assert_true(limit_of(t, "strict", LACTOSE, class) == 1.0);
    }
    const struct phase *strict = &t->limits.phases[limits_phase(&t->limits, SLICE("strict"))];
    assert_true(limits_fresh(strict, EXCESS_FRUCTOSE, NULL)->span.mid == 0.40);
    assert_null(limits_fresh(strict, FRUCTAN, NULL));
    assert_true(limits_sitting(strict, NULL)->span.mid == 0.5);
    assert_true(t->limits.close_at.span.mid == 0.2);
    assert_true(t->limits.over_at.span.mid == 0.5);
}

static void
a_reader_sets_their_own(void **state)
{
    (void)state;
    struct arena *a = arena_open(1 << 16);
    struct notices n = {.arena = a};
    struct limits *l = arena_take(a, sizeof *l);
    limits_load(a,
                yaml_of(a,
                        "phases:\n"
                        "  strict:\n"
                        "    groups:\n"
                        "      lactose: {grams: 1, source: s, basis: published}\n"
                        "      fructan: {grams: 0.2, by-class: {grain: 0.3}, source: s, "
                        "basis: published}\n"
                        "    sitting: {grams: 0.5, source: s, basis: published}\n",
                        &n),
                &n, l);
    limits_load(a,
                yaml_of(a,
                        "phases:\n"
                        "  strict: {groups: {lactose: {grams: 0.5, source: own, basis: "
                        "measured, changed: 2026-03-01}}}\n"
                        "  wider:\n"
                        "    base: strict\n"
                        "    groups:\n"
                        "      fructan: {multiple: 3}\n"
                        "      lactose: {lifted: yes}\n"
                        "      sugar: {grams: 1, source: s, basis: published}\n"
                        "      mannitol: {grams: 0, source: s, basis: published}\n"
                        "    sitting: {multiple: 2}\n",
                        &n),
                &n, l);
    limits_close(a, l);
    assert_int_equal(n.count, 2); /* sugar is no group, zero is no limit */
    const struct phase *strict = &l->phases[0], *wider = &l->phases[1];
    assert_true(limit_for(strict, LACTOSE, CLASS_DAIRY, NULL)->span.mid == 0.5);
    assert_string_equal(strict->groups[LACTOSE].entry.changed, "2026-03-01");
    assert_true(limit_for(strict, FRUCTAN, CLASS_FRUIT, NULL)->span.mid == 0.2);
    assert_true(fabs(limit_for(wider, FRUCTAN, CLASS_FRUIT, NULL)->span.mid - 0.6) < 1e-12);
    assert_true(fabs(limit_for(wider, FRUCTAN, CLASS_GRAIN, NULL)->span.mid - 0.9) < 1e-12);
    assert_null(limit_for(wider, LACTOSE, CLASS_DAIRY, NULL));
    assert_false(limits_hold(wider, LACTOSE, NULL));
    assert_false(limits_hold(wider, SORBITOL, NULL));
    assert_true(limits_sitting(wider, NULL)->span.mid == 1.0);
    arena_close(a);
}

static void
looks_are_noted(void **state)
{
    const struct tables *t = *state;
    struct arena *a = arena_open(4096);
    struct reads r = reads_new(a);
    for (size_t p = 0; p < t->limits.phase_count; p++) {
        for (int g = 0; g < GROUPS; g++)
            limit_for(&t->limits.phases[p], (enum group)g, CLASS_FRUIT, &r);
        limits_sitting(&t->limits.phases[p], &r);
    }
    assert_int_equal(r.count, t->limits.phase_count * (GROUPS + 1));
    for (size_t i = 0; i < r.count; i++) {
        const struct entry *e = r.items[i];
        assert_true(e->digest != 0);
        assert_true(e->digest == tables_ask(t, a, slice_of(e->key)));
    }
    assert_true(tables_ask(t, a, SLICE("limit:strict/sugar")) == 0);
    arena_close(a);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_published_cut_offs_stand),
        cmocka_unit_test(a_reader_sets_their_own),
        cmocka_unit_test(looks_are_noted),
    };
    return cmocka_run_group_tests(tests, take_repository_tables, drop_repository_tables);
}
