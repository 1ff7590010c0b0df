/* Variants laid out and the fewest choices settled. See test_properties.c for random dishes. */
#include "made_dish.h"

#include "reckon/choices.h"

static const char foods[] =
    "foods:\n"
    "  honey: {name: honey, class: other, forms: {whole: {}}, per-100-g: {lactose: &n {mid: 0, "
    "source: t, basis: calculated}, excess-fructose: {mid: 7, source: t, basis: published}, "
    "fructan: *n, galacto-oligosaccharide: *n, sorbitol: *n, mannitol: *n}}\n"
    "  syrup: {name: maple syrup, class: other, forms: {whole: {}}, per-100-g: {all: *n}}\n"
    "  leek: {name: leek, class: vegetable, fresh: yes, forms: {whole: {}}, per-100-g: {lactose: "
    "*n, excess-fructose: *n, fructan: {mid: 2, source: t, basis: published}, "
    "galacto-oligosaccharide: *n, sorbitol: *n, mannitol: *n}}\n"
    "  salt: {name: salt, class: other, forms: {whole: {}}, per-100-g: {all: *n}}\n";

static struct choices
lay(struct made *m)
{
    struct choices c;
    struct sheet sheet;
    struct phase_stand stand;
    sheet_build(m->arena, &m->dish, &m->tables, NULL, &sheet);
    sheet_stand(m->arena, &sheet, 0, NULL, &stand);
    choices_find(m->arena, &sheet, &stand, &c);
    return c;
}

/* honey or syrup, leek or none, salt or none: eight variants; two choices decide */
static void
lists_variants_and_settles_the_fewest(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    struct ingredient *sweet = made_ingredient(m, false);
    made_option(m, sweet, made_weighed(m, "honey", span_exact(10)));
    made_option(m, sweet, made_weighed(m, "syrup", span_exact(10)));
    made_option(m, made_ingredient(m, true), made_weighed(m, "leek", span_exact(20)));
    made_option(m, made_ingredient(m, true), made_weighed(m, "salt", span_exact(2)));
    made_portions(m, 1);
    struct choices c = lay(m);
    assert_int_equal(c.choice_count, 3);
    assert_int_equal(c.count, 8);
    assert_true(c.differ);
    size_t within = 0;
    for (size_t i = 0; i < c.count; i++)
        within += c.variants[i].standing == STANDING_WITHIN;
    assert_int_equal(within, 2); /* syrup, no leek; with salt or without */
    assert_int_equal(c.resolved, STANDING_WITHIN);
    assert_int_equal(c.resolve_count, 2);
    assert_int_equal(c.resolve[0], 0);
    assert_int_equal(c.resolve[1], 2); /* the second option */
    assert_int_equal(c.resolve[2], 1);
    assert_int_equal(c.resolve[3], 0); /* left out */
    made_close(m);
}

static void
settles_nothing_where_all_stand_alike(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    made_line(m, "leek", 50); /* over, whatever is chosen */
    made_option(m, made_ingredient(m, true), made_weighed(m, "salt", span_exact(2)));
    made_portions(m, 1);
    struct choices c = lay(m);
    assert_int_equal(c.count, 2);
    assert_false(c.differ);
    assert_int_equal(c.resolve_count, 0);
    assert_int_equal(c.resolved, STANDING_OVER);
    made_close(m);
}

/* 2 to the 12th variants are not listed, but the two that decide are found */
static void
settles_among_very_many(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    for (size_t i = 0; i < 12; i++)
        made_option(m, made_ingredient(m, true),
                    made_weighed(m,
                                 i == 4   ? "leek"
                                 : i == 9 ? "honey"
                                          : "salt",
                                 span_exact(20)));
    made_portions(m, 1);
    struct choices c = lay(m);
    assert_near(c.variant_count, 4096, 0);
    assert_int_equal(c.count, 0);
    assert_true(c.differ);
    assert_int_equal(c.resolved, STANDING_WITHIN);
    assert_int_equal(c.resolve_count, 2);
    assert_int_equal(c.resolve[0], 4);
    assert_int_equal(c.resolve[1], 0);
    assert_int_equal(c.resolve[2], 9);
    assert_int_equal(c.resolve[3], 0);
    struct phase_stand s = made_stand(m);
    assert_int_equal(s.standing, STANDING_OVER);
    assert_int_equal(s.best_standing, STANDING_WITHIN);
    made_close(m);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(lists_variants_and_settles_the_fewest),
        cmocka_unit_test(settles_nothing_where_all_stand_alike),
        cmocka_unit_test(settles_among_very_many),
    };
    return cmocka_run_group_tests_name("choices", tests, NULL, NULL);
}
