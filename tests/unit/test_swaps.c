/* The table of swaps: its order, the layers of it, what is asked of it, and the rows that are
 * shipped. */
#include "own_tables.h"

#include "tables/swaps.h"

static const char first[] =
    "swaps:\n"
    "  tops: {of: [onion, leek], use: chives, ratio: 0.3, work: savour, loses: bite, source: s, "
    "basis: practice}\n"
    "  greens: {of: [leek], use: leek-green, ratio: 1, up-to: 40, not-with: [rice], work: bulk, "
    "loses: softness, also: cook it longer, source: s, basis: practice}\n";

static void
tries_rows_in_order(void **state)
{
    (void)state;
    struct arena *a = arena_open(1 << 14);
    struct notices n = {.arena = a};
    struct swaps s = {.count = 0};
    struct reads reads = reads_new(a);
    swaps_load(a, "swaps.yaml", yaml_of(a, first, &n), &n, &s);
    assert_int_equal(n.count, 0);
    const struct swap *one = swaps_next(&s, "leek", NULL, &reads);
    assert_string_equal(one->id, "tops");
    const struct swap *two = swaps_next(&s, "leek", one, &reads);
    assert_string_equal(two->use, "leek-green");
    assert_true(two->ratio == 1 && two->up_to == 40);
    assert_string_equal(two->not_with[0], "rice");
    assert_string_equal(two->also, "cook it longer");
    assert_null(swaps_next(&s, "leek", two, &reads));
    assert_null(swaps_next(&s, "onions", NULL, &reads));
    arena_close(a);
}

/* a blog's own rows are tried first; one of a known id takes its place */
static void
later_layers_come_first(void **state)
{
    (void)state;
    struct arena *a = arena_open(1 << 14);
    struct notices n = {.arena = a};
    struct swaps s = {.count = 0};
    swaps_load(a, "swaps.yaml", yaml_of(a, first, &n), &n, &s);
    const uint64_t onion = swaps_ask(&s, SLICE("swaps:onion"));
    const uint64_t leek = swaps_ask(&s, SLICE("swaps:leek"));
    swaps_load(a, "own.yaml",
               yaml_of(a,
                       "swaps:\n"
                       "  mine: {of: [leek], use: fennel, ratio: 1, work: bulk, loses: x, source: "
                       "s, basis: practice}\n"
                       "  tops: {of: [onion, leek], use: chives, ratio: 0.5, work: savour, loses: "
                       "bite, source: s, basis: practice}\n",
                       &n),
               &n, &s);
    assert_int_equal(n.count, 0);
    assert_int_equal(s.count, 3);
    assert_string_equal(swaps_next(&s, "leek", NULL, NULL)->id, "mine");
    assert_true(swaps_next(&s, "onion", NULL, NULL)->ratio == 0.5);
    assert_true(swaps_ask(&s, SLICE("swaps:onion")) != onion);
    assert_true(swaps_ask(&s, SLICE("swaps:leek")) != leek);
    assert_true(swaps_ask(&s, SLICE("swaps:rice")) == 0);
    assert_true(swaps_ask(&s, SLICE("swap:mine")) != 0);
    assert_true(swaps_ask(&s, SLICE("swap:yours")) == 0);
    arena_close(a);
}

/* at least 40 rows, whose foods the larder has, none of which is swapped for itself */
static void
shipped_rows_hold(void **state)
{
    const struct tables *t = *state;
    struct notices n = {.arena = t->larder->arena};
    assert_true(t->swaps.count >= 40);
    for (size_t i = 0; i < t->swaps.count; i++) {
        const struct swap *s = &t->swaps.items[i];
        assert_false(swaps_lack(s, t->larder, &n));
        for (const char **id = s->of; *id != NULL; id++)
            if (strcmp(*id, s->use) == 0)
                fail_msg("%s swaps %s for itself", s->id, *id);
    }
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(tries_rows_in_order),
        cmocka_unit_test(later_layers_come_first),
        cmocka_unit_test(shipped_rows_hold),
    };
    return cmocka_run_group_tests(tests, take_repository_tables, drop_repository_tables);
}
