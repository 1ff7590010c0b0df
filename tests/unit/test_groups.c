/* The rows that foods are told apart by: words, sums and their parts, cereals. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "tables/groups.h"

static void
each_group_is_read_by_its_word(void **state)
{
    (void)state;
    for (int g = 0; g < GROUPS; g++) {
        enum group read = GROUPS;
        assert_true(groups_read(slice_of(groups_word((enum group)g)), &read));
        assert_int_equal(read, g);
    }
    enum group none;
    assert_false(groups_read(SLICE("fibre"), &none));
}

/* a sum counts in a sitting, its parts within it; lactose counts in none */
static void
parts_count_within_their_sum(void **state)
{
    (void)state;
    assert_true(groups_is_part(FRUCTAN, OLIGOSACCHARIDES));
    assert_true(groups_is_part(GALACTO_OLIGOSACCHARIDE, OLIGOSACCHARIDES));
    assert_true(groups_is_part(SORBITOL, POLYOLS) && groups_is_part(MANNITOL, POLYOLS));
    assert_false(groups_is_part(SORBITOL, OLIGOSACCHARIDES));
    assert_false(groups_is_part(POLYOLS, POLYOLS));
    assert_true(groups_is_sum(OLIGOSACCHARIDES) && groups_is_sum(POLYOLS));
    assert_false(groups_is_sum(LACTOSE) || groups_is_sum(FRUCTAN) || groups_is_sum(MANNITOL));
    assert_true(groups_in_sitting(OLIGOSACCHARIDES) && groups_in_sitting(EXCESS_FRUCTOSE));
    assert_false(groups_in_sitting(LACTOSE) || groups_in_sitting(FRUCTAN) ||
                 groups_in_sitting(SORBITOL));
}

/* those that Regulation (EU) 1169/2011, Annex II, names behind "cereals containing gluten" */
static void
cereals_hold_gluten(void **state)
{
    (void)state;
    const enum allergen cereals[] = {ALLERGEN_WHEAT, ALLERGEN_RYE, ALLERGEN_BARLEY, ALLERGEN_OATS};
    for (int a = 0; a < ALLERGENS; a++) {
        bool cereal = false;
        for (size_t i = 0; i < sizeof cereals / sizeof *cereals; i++)
            cereal = cereal || (int)cereals[i] == a;
        assert_int_equal(groups_allergen_is_cereal((enum allergen)a), cereal);
    }
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_group_is_read_by_its_word),
        cmocka_unit_test(parts_count_within_their_sum),
        cmocka_unit_test(cereals_hold_gluten),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
