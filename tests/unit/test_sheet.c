/* Sheets of changed dishes against sheets laid anew. */
#include "made_dish.h"

#include "reckon/portion.h"
#include "reckon/sheet.h"

static const char foods[] =
    "foods:\n"
    "  honey: {name: honey, class: other, forms: {whole: {}}, per-100-g: {lactose: &n {mid: 0, "
    "source: t, basis: calculated}, excess-fructose: {low: 6, mid: 7, high: 8, source: t, basis: "
    "published}, fructan: *n, galacto-oligosaccharide: *n, sorbitol: *n, mannitol: *n}}\n"
    "  leek: {name: leek, class: vegetable, fresh: yes, forms: {whole: {}}, per-100-g: {lactose: "
    "*n, excess-fructose: *n, fructan: {low: 1.5, mid: 1.75, high: 2, source: t, basis: "
    "published}, galacto-oligosaccharide: *n, sorbitol: *n, mannitol: *n}}\n"
    "  onion: {name: onion, class: vegetable, fresh: yes, forms: {whole: {}}, per-100-g: {lactose: "
    "*n, excess-fructose: *n, fructan: {mid: 2.1, source: t, basis: published}, "
    "galacto-oligosaccharide: *n, sorbitol: *n, mannitol: *n}}\n"
    "  plum: {name: plum, class: fruit, fresh: yes, forms: {whole: {}}, per-100-g: {lactose: *n, "
    "excess-fructose: *n, fructan: *n, galacto-oligosaccharide: *n, sorbitol: {mid: 0.8, source: "
    "t, basis: calculated}, mannitol: *n}}\n"
    "  untested: {name: untested, class: vegetable, forms: {whole: {}}}\n";

/* two portions with a choice in them; untested: what one way of it brings is not all known */
static void
lay_dish(struct made *m, bool untested)
{
    made_portions(m, 2);
    made_line(m, "honey", 60);
    struct ingredient *in = made_ingredient(m, true);
    made_option(m, in, made_weighed(m, "leek", span_exact(100)));
    made_option(m, in, made_weighed(m, "plum", span_exact(90)));
    if (untested)
        made_and(in, made_weighed(m, "untested", span_exact(5)));
    made_line(m, "onion", 80);
}

/* where all is known, a part of a portion stands as that part reckoned anew does */
static void
tells_how_a_part_stands(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    lay_dish(m, false);
    struct sheet known, anew;
    unsigned seen = 0;
    sheet_lay(m->arena, &m->dish, &m->tables, 0, NULL, &known);
    assert_false(known.unsure);
    for (int portions = 1; portions <= 60; portions++) {
        struct dish d = m->dish;
        double share;
        d.portions = span_exact(portions);
        sheet_lay(m->arena, &d, &m->tables, 0, NULL, &anew);
        assert_int_equal(sheet_worst_of(&known, 2.0 / portions), sheet_worst(&anew, &share));
        seen |= 1u << sheet_worst(&anew, &share);
    }
    assert_true((seen >> STANDING_WITHIN & 1) != 0 && (seen >> STANDING_OVER & 1) != 0);
    made_line(m, "untested", 5);
    sheet_lay(m->arena, &m->dish, &m->tables, 0, NULL, &known);
    assert_true(known.unsure);
    made_close(m);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(tells_how_a_part_stands)};
    return cmocka_run_group_tests_name("sheet", tests, NULL, NULL);
}
