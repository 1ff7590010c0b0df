/* A writer's own serves: how rows are read, from YAML and from comma-separated values, and what
 * holds for a portion where they stand. */
#include "made_dish.h"
#include "own_tables.h"

#include "tables/serve_settle.h"

static size_t notes;
static struct text told_text;

static void
keep(void *ctx, const char *path, struct notices *n)
{
    (void)ctx;
    (void)path;
    for (size_t i = 0; i < n->count; i++) {
        notes += n->items[i].rule == RULE_SERVE_DISAGREES;
        text_addf(&told_text, "%.*s: %.*s\n", SLICE_ARGS(n->items[i].what),
                  SLICE_ARGS(n->items[i].more));
    }
}

static struct tables *
with_serves(const char *yaml)
{
    struct arena *a = arena_open(1 << 20);
    struct tables *t = repository_tables(a);
    struct notices n = {.arena = a};
    notes = 0;
    told_text = text_new(a);
    serves_load(a, "serves.yaml", yaml_of(a, yaml, &n), &n, &t->serves);
    assert_int_equal(n.count, 0);
    const struct serves_asked asked = {&t->serves, t->larder,    t->words,
                                       &t->limits, &t->measures, t->site.measures};
    serves_settle(a, &asked, keep, NULL);
    return t;
}

static double
grams(const struct tables *t, const char *food, int phase)
{
    const struct food *f = larder_by_id(t->larder, slice_of(food));
    assert_non_null(f);
    const struct given_serve *s = serves_of_food(f, &f->forms[0], phase, NULL);
    return s == NULL ? -1 : s->no_limit ? INFINITY : s->grams.span.mid;
}

static void
rows_find_their_foods_and_grams(void **state)
{
    (void)state;
    struct tables *t = with_serves("source: my dietitian\n"
                                   "blueberry: 40 g\n"
                                   "pear: {canned: 60 g}\n"
                                   "strawberry: no limit\n"
                                   "peanut butter: 2 tbsp\n"
                                   "banana: 1 medium\n"
                                   "raspberry: {strict: 28 g, wider: 60 g, source: another, "
                                   "changed: 2026-11-01}\n");
    assert_true(grams(t, "blueberry", 0) == 40);
    assert_true(grams(t, "blueberry", 1) == -1); /* of the first phase, where none is said */
    assert_true(grams(t, "blueberry-dried", 0) == -1);
    assert_true(grams(t, "pear", 0) == -1);
    assert_true(grams(t, "pear-canned", 0) == 60);
    assert_true(isinf(grams(t, "strawberry", 0)) && isinf(grams(t, "strawberry", 1)));
    assert_true(grams(t, "peanut-butter", 0) > 30 && grams(t, "peanut-butter", 0) < 50);
    assert_true(grams(t, "banana", 0) > 80 && grams(t, "banana", 0) < 140);
    assert_true(grams(t, "raspberry", 0) == 28 && grams(t, "raspberry", 1) == 60);
    const struct food *f = larder_by_id(t->larder, SLICE("raspberry"));
    assert_string_equal(serves_of_food(f, NULL, 0, NULL)->grams.source, "another");
    assert_string_equal(f->serve_entry.changed, "2026-11-01");
    assert_int_equal(notes, 1);
    arena_close(t->larder->arena);
}

static void
wrong_rows_are_told(void **state)
{
    (void)state;
    struct tables *t = with_serves("onyonn: 3 g\nhoney: {strikt: 1 tsp}\nrice: a lot\n"
                                   "carrot: {strict: 30 g}\nkale: {florets: {wide: 20 g}}\n");
    static const char *const said[] = {"onyonn: the larder has no “onyonn”",
                                       "honey: “strikt” is neither a phase nor a form of the food",
                                       "rice: “a lot” cannot be brought to grams",
                                       "kale: there is no phase “wide”"};
    for (size_t i = 0; i < 4; i++)
        if (slice_find(text_slice(&told_text), said[i], 0) == SIZE_MAX)
            fail_msg("“%s” is not in %s", said[i], told_text.bytes);
    assert_true(grams(t, "carrot", 0) == 30);
    arena_close(t->larder->arena);
}

static void
comma_separated_values_are_rows(void **state)
{
    (void)state;
    struct arena *a = arena_open(1 << 16);
    struct notices n = {.arena = a};
    struct serves s = {.rows = {NULL, 0, 0}};
    struct slice yaml =
        serves_from_csv(a, SLICE("\xef\xbb\xbf"
                                 "food, grams, phase, source\r\n"
                                 "raspberry, 58 ,strict,\"the \"\"list\"\", 2025\"\r\n"
                                 "\n"
                                 "kiwifruit,2 pieces,,x\r\n"));
    assert_true(slice_is(yaml,
                         "\n- {\"food\": \"raspberry\", \"grams\": \"58 g\", \"phase\": "
                         "\"strict\", \"source\": \"the \\\"list\\\", 2025\"}\n\n- {\"food\": "
                         "\"kiwifruit\", \"grams\": \"2 pieces\", \"source\": \"x\"}\n"));
    serves_load(a, "serves.csv", yaml_of(a, slice_string(a, yaml), &n), &n, &s);
    assert_int_equal(n.count, 0);
    assert_int_equal(s.rows.count, 2);
    assert_true(slice_is(s.rows.items[0].phase, "strict"));
    assert_string_equal(s.rows.items[0].source, "the \"list\", 2025");
    assert_int_equal(s.rows.items[1].place.line, 4);
    arena_close(a);
}

static const char foods[] =
    "foods:\n"
    "  berry: {name: berry, class: fruit, fresh: yes, forms: {whole: {}}, per-100-g: {lactose: &n "
    "{kind: none, source: t, basis: calculated}, excess-fructose: {mid: 1, source: t, basis: "
    "published}, fructan: *n, galacto-oligosaccharide: *n, sorbitol: {mid: 0.4, source: t, basis: "
    "published}, mannitol: *n}}\n"
    "  dried: {name: dried berry, class: fruit, counts-with: berry, forms: {whole: {}}, per-100-g: "
    "{lactose: *n, excess-fructose: *n, fructan: *n, galacto-oligosaccharide: *n, sorbitol: {mid: "
    "2, source: t, basis: published}, mannitol: *n}}\n"
    "  cake: {name: cake, class: grain, forms: {whole: {}}, per-100-g: {all: *n}}\n";

static struct food *
food(struct made *m, const char *id)
{
    return (struct food *)(uintptr_t)larder_by_id(m->tables.larder, slice_of(id));
}

/* 60 g of berries: 0.6 g of fructose in excess and 0.24 g of sorbitol, over by both; by a serve of
 * 80 g within, though the sitting counts 0.6 + 0.24 g against 0.5 g: at most 60/80 of it */
static void
serve_takes_the_place_of_the_limits(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    made_line(m, "berry", 60);
    made_portions(m, 1);
    assert_int_equal(made_stand(m).standing, STANDING_OVER);
    serve_set(m->arena, food(m, "berry"), 0, 80, "mine");
    struct phase_stand s = made_stand(m);
    assert_int_equal(s.standing, STANDING_WITHIN);
    assert_int_equal(s.nearest->of.column, SERVED);
    assert_near(s.nearest->worst.mid, 0.75, 1e-9);
    assert_near(s.nearest->worst.load, 60, 1e-9);
    assert_near(s.whole->worst.mid, 0.75, 1e-9);
    assert_int_equal(s.tightest, -1);
    serve_set(m->arena, food(m, "berry"), 0, 50, "mine");
    assert_int_equal(made_stand(m).standing, STANDING_OVER);
    assert_true(reads_hold(&m->reads, SLICE("food:berry/serve")));
    /* the other phase has no serve: composition holds there */
    struct phase_stand wider;
    portion_stand(m->arena, &m->dish, &m->tables, 1, NULL, &wider);
    assert_true(wider.nearest->of.column != SERVED);
    made_close(m);
}

/* dried berries count with fresh ones, but their serve says nothing of them: 40 of 80 g and, by
 * sorbitol, 5 g x 2 % of 0.2 g make one */
static void
other_forms_add_their_share(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    made_line(m, "berry", 40);
    made_line(m, "dried", 5);
    made_portions(m, 1);
    serve_set(m->arena, food(m, "berry"), 0, 80, "mine");
    struct phase_stand s = made_stand(m);
    assert_int_equal(s.nearest->of.column, SERVED);
    assert_near(s.nearest->worst.mid, 1, 1e-9);
    made_close(m);
}

/* by a serve without limit any amount is within; in the sitting it counts for half at most */
static void
no_limit_counts_half_of_a_sitting(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    made_line(m, "berry", 500);
    made_portions(m, 1);
    struct given_serve *serve = arena_take(m->arena, sizeof *serve);
    serve->phase = -1;
    serve->no_limit = true;
    serve->grams.basis = BASIS_PRACTICE;
    food(m, "berry")->serves = serve;
    struct phase_stand s = made_stand(m);
    assert_int_equal(s.standing, STANDING_WITHIN);
    assert_near(s.whole->worst.mid, 0.5, 1e-9);
    made_close(m);
}

/* what holds nothing by its composition still has its serve */
static void
serve_holds_where_composition_says_nothing(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    made_line(m, "cake", 30);
    made_portions(m, 1);
    serve_set(m->arena, food(m, "cake"), 0, 28, "mine");
    struct phase_stand s = made_stand(m);
    assert_int_equal(s.standing, STANDING_OVER);
    assert_near(s.nearest->worst.mid, 30.0 / 28, 1e-9);
    made_close(m);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(rows_find_their_foods_and_grams),
        cmocka_unit_test(wrong_rows_are_told),
        cmocka_unit_test(comma_separated_values_are_rows),
        cmocka_unit_test(serve_takes_the_place_of_the_limits),
        cmocka_unit_test(other_forms_add_their_share),
        cmocka_unit_test(no_limit_counts_half_of_a_sitting),
        cmocka_unit_test(serve_holds_where_composition_says_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
