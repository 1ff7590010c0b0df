/* What a portion holds of one entry, line by line. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "reckon/shares.h"

/* of lines that bring as much, the first of the dish is the one that is told; what is bare of an
 * amount adds up */
static void
lines_of_one_entry_add_up(void **state)
{
    (void)state;
    const struct load lines[] = {
        {.grams = 20, .extra = 5}, {.grams = 30, .extra = 0}, {.grams = 30, .extra = 2}};
    struct entry_amount sum = {0};
    entry_amount_add(&sum, &lines[0]);
    entry_amount_add(&sum, &lines[1]);
    entry_amount_add(&sum, &lines[2]);
    assert_ptr_equal(sum.chief, &lines[1]);
    assert_float_equal(sum.grams, 80, 1e-9);
    assert_float_equal(sum.extra, 7, 1e-9);
    assert_int_equal(sum.count, 3);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(lines_of_one_entry_add_up)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
