/* A packet's list cut into ingredients, and what a linear program finds over amounts. */
#include "own_tables.h"

#include <math.h>

#include "base/linear_program.h"
#include "read/label_list.h"

static const struct tables *
tables_of(void **state)
{
    return *state;
}

static struct label_list
read_list(void **state, struct arena *a, const char *text)
{
    struct label_list list;
    label_list_read(a, slice_of(text), tables_of(state)->words, &list);
    return list;
}

/* "salt|palm oil 2-3|  sunflower": names, percentages, two spaces for what is in a bracket */
static void
assert_items(void **state, const char *text, const char *wanted)
{
    struct arena *a = arena_open(1 << 14);
    const struct label_list list = read_list(state, a, text);
    struct text t = text_new(a);
    for (size_t i = 0; i < list.items.count; i++) {
        const struct label_item *it = &list.items.items[i];
        text_addf(&t, "%s%s%.*s", i > 0 ? "|" : "", it->parent > 0 ? "  " : "",
                  SLICE_ARGS(it->name));
        if (it->most < 100 || it->least > 0)
            text_addf(&t, " %g-%g", it->least, it->most);
        if (it->small > 0)
            text_addf(&t, " <%g", it->small);
        if (it->any_order)
            text_add_string(&t, " ~");
    }
    assert_string_equal(t.length > 0 ? t.bytes : "", wanted);
    arena_close(a);
}

static void
a_list_is_cut_at_its_commas(void **state)
{
    assert_items(state, "Ingredients: water, sea salt; pepper.", "water|sea salt|pepper");
    assert_items(state, "WATER, Onion Powder", "WATER|Onion Powder");
    assert_items(state, "", "");
    assert_items(state, ", ,", "");
}

static void
percentages_are_read_with_their_width(void **state)
{
    assert_items(state, "onion powder (2 %), 3% salt, oats 12,5 %",
                 "onion powder 1.5-2.5|salt 2.5-3.5|oats 12.45-12.55");
    assert_items(state, "cocoa min. 30 %, milk (at least 4%)", "cocoa 29.5-100|milk 3.5-100");
    assert_items(state, "garlic <2%, salt (less than 1 %)", "garlic 0-2|salt 0-1");
}

static void
brackets_hold_ingredients_notes_or_percentages(void **state)
{
    assert_items(state, "flour mix 40 % (rice flour, potato starch), whey powder (from MILK) (2 %)",
                 "flour mix 39.5-40.5|  rice flour|  potato starch|whey powder 1.5-2.5");
    assert_items(state, "chocolate [sugar, {milk, (salt)}], water",
                 "chocolate|  sugar|  |  milk|  |  salt|water");
    assert_items(state, "vegetable oils (palm, rapeseed, in varying proportions)",
                 "vegetable oils ~|  palm|  rapeseed");
    assert_items(state, "onions (fried", "onions|  fried");
}

static void
what_an_ingredient_is_for_stands_before_it(void **state)
{
    assert_items(state, "emulsifier: soya lecithin, acidity regulator citric acid",
                 "soya lecithin|citric acid");
    assert_items(state, "emulsifiers (lecithins, mono- and diglycerides)",
                 "|  lecithins|  mono- and diglycerides");
    assert_items(state, "Dough: flour, water", "flour|water");
}

static void
small_amounts_are_said_before_them(void **state)
{
    assert_items(state, "oats, contains 2% or less of: salt, inulin", "oats|salt <2|inulin <2");
    assert_items(state, "oats. Contains less than 1.5 % of: salt", "oats|salt <1.5");
    assert_items(state, "oats, 2% or less of each of the following: salt", "oats|salt <2");
}

static void
sentences_name_allergens(void **state)
{
    struct arena *a = arena_open(1 << 14);
    const struct label_list list = read_list(
        state, a,
        "Water, salt. Contains: milk, soya. May contain traces of nuts. For allergens, see "
        "ingredients in CAPITALS. Lovely!");
    assert_int_equal(list.items.count, 2);
    assert_int_equal(list.statements.count, 4);
    assert_int_equal(list.statements.items[0].saying, LABEL_CONTAINS);
    assert_true(slice_ends(list.statements.items[0].text, "milk, soya"));
    assert_int_equal(list.statements.items[1].saying, LABEL_MAY_CONTAIN);
    assert_int_equal(list.statements.items[2].saying, LABEL_IDLE);
    assert_int_equal(list.statements.items[3].saying, LABEL_UNREAD);
    arena_close(a);
}

static void
a_list_without_end_is_bounded(void **state)
{
    struct arena *a = arena_open(1 << 14);
    struct text t = text_new(a), deep = text_new(a);
    for (int i = 0; i < 200; i++)
        text_add_string(&t, "salt, ");
    for (int i = 0; i < 200; i++)
        text_add_string(&deep, "salt (");
    struct label_list list = read_list(state, a, t.bytes);
    assert_true(list.too_many && list.items.count == LABEL_ITEMS_MOST);
    list = read_list(state, a, deep.bytes);
    assert_true(list.too_many && list.items.count == LABEL_DEPTH_MOST + 1);
    arena_close(a);
}

/* Three amounts that make 100, each at most the one before: the first is at most 100, the second
 * at most a half, the third at most a third, and the first at least a third. */
static void
amounts_in_order_are_at_most_their_part(void **state)
{
    (void)state;
    struct arena *a = arena_open(1 << 14);
    struct linear_program p = linear_open(a, 3);
    double *all = linear_add(&p, LINEAR_EXACTLY, 100);
    all[0] = all[1] = all[2] = 1;
    for (size_t i = 1; i < 3; i++) {
        double *row = linear_add(&p, LINEAR_AT_MOST, 0);
        row[i] = 1;
        row[i - 1] = -1;
    }
    for (size_t i = 0; i < 3; i++) {
        double weights[3] = {0, 0, 0}, at[3];
        weights[i] = 1;
        assert_true(fabs(linear_most(&p, weights, at) - 100.0 / ((double)i + 1)) < 1e-9);
        assert_true(fabs(at[0] + at[1] + at[2] - 100) < 1e-9);
    }
    const double less[3] = {-1, 0, 0};
    assert_true(fabs(linear_most(&p, less, NULL) + 100.0 / 3) < 1e-9);
    arena_close(a);
}

static void
rows_that_exclude_each_other_have_no_amounts(void **state)
{
    (void)state;
    struct arena *a = arena_open(1 << 14);
    struct linear_program p = linear_open(a, 2);
    const double weights[2] = {1, 1};
    linear_add(&p, LINEAR_AT_LEAST, 60)[0] = 1;
    linear_add(&p, LINEAR_AT_LEAST, 50)[1] = 1;
    double *all = linear_add(&p, LINEAR_AT_MOST, 100);
    all[0] = all[1] = 1;
    assert_true(isnan(linear_most(&p, weights, NULL)));
    arena_close(a);
}

/* the dull rows of a degenerate program, on which the rule of the steepest goes round in a circle
 * (Beale's example; Chvátal, Linear Programming, 1983, chapter 3; from memory): the most is 1/20 */
static void
a_degenerate_program_ends(void **state)
{
    (void)state;
    struct arena *a = arena_open(1 << 14);
    struct linear_program p = linear_open(a, 4);
    const double rows[3][4] = {{0.25, -60, -0.04, 9}, {0.5, -90, -0.02, 3}, {0, 0, 1, 0}};
    const double bounds[3] = {0, 0, 1}, weights[4] = {0.75, -150, 0.02, -6};
    for (int i = 0; i < 3; i++)
        memcpy(linear_add(&p, LINEAR_AT_MOST, bounds[i]), rows[i], sizeof rows[i]);
    assert_true(fabs(linear_most(&p, weights, NULL) - 0.05) < 1e-9);
    arena_close(a);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_list_is_cut_at_its_commas),
        cmocka_unit_test(percentages_are_read_with_their_width),
        cmocka_unit_test(brackets_hold_ingredients_notes_or_percentages),
        cmocka_unit_test(what_an_ingredient_is_for_stands_before_it),
        cmocka_unit_test(small_amounts_are_said_before_them),
        cmocka_unit_test(sentences_name_allergens),
        cmocka_unit_test(a_list_without_end_is_bounded),
        cmocka_unit_test(amounts_in_order_are_at_most_their_part),
        cmocka_unit_test(rows_that_exclude_each_other_have_no_amounts),
        cmocka_unit_test(a_degenerate_program_ends),
    };
    return cmocka_run_group_tests(tests, take_repository_tables, drop_repository_tables);
}
