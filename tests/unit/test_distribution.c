/* Distributions: their constructors, sums and products, and the chance of being over a limit. See
 * tests/outside/chance.py for random portions. */
#include "reckon/distribution_sum.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

/* within one part in a hundred */
static void
assert_near(double got, double wanted)
{
    if (got < wanted - wanted * 1e-2 || got > wanted + wanted * 1e-2)
        fail_msg("%g is not %g", got, wanted);
}

static void
assert_chance(const struct distribution *d, double limit, double wanted)
{
    double got = distribution_over(d, limit);
    if (got < wanted - 0.005 || got > wanted + 0.005)
        fail_msg("over %g with a chance of %g, not %g", limit, got, wanted);
}

static void
exact_is_over_or_not(void **state)
{
    (void)state;
    struct distribution d = distribution_exact(0.2), none = distribution_exact(0);
    assert_true(distribution_over(&d, 0.2) == 0);
    assert_true(distribution_over(&d, 0.19999) == 1);
    assert_true(distribution_over(&none, 0) == 0);
    assert_true(distribution_quantile(&d, 0.95) == 0.2);
    struct distribution sum = distribution_sum(&d, &d), product = distribution_product(&d, &d);
    assert_true(sum.points[0] == 0.4 && distribution_over(&sum, 0.4) == 0);
    assert_true(distribution_quantile(&product, 0.5) == 0.2 * 0.2);
}

/* mean 2 and deviation 1: sigma is the root of ln 1.25, the median 2 over the root of 1.25 */
static void
samples_are_log_normal(void **state)
{
    (void)state;
    struct distribution d = distribution_samples(2, 1);
    assert_near(distribution_quantile(&d, 0.5), 1.788854);
    assert_near(distribution_quantile(&d, 0.95), 1.788854 * 2.174625);
    assert_near(distribution_quantile(&d, 0.05), 1.788854 / 2.174625);
    d = distribution_samples(2, 0);
    assert_true(d.points[0] == 2 && d.points[DISTRIBUTION_POINTS - 1] == 2);
}

static void
range_keeps_its_percentiles(void **state)
{
    (void)state;
    struct distribution d = distribution_range(0.1, 0.2, 0.8);
    assert_near(distribution_quantile(&d, 0.05), 0.1);
    assert_near(distribution_quantile(&d, 0.5), 0.2);
    assert_near(distribution_quantile(&d, 0.95), 0.8);
    assert_chance(&d, 0.8, 0.05);
    d = distribution_range(0, 0.2, 0.8); /* rectangular on each side */
    assert_chance(&d, 0.1, 0.75);
    assert_chance(&d, 0.2, 0.5);
    assert_chance(&d, 0.5, 0.25);
    d = distribution_below(0.1);
    assert_chance(&d, 0.08, 0.2);
    assert_true(distribution_over(&d, 0.1) == 0);
}

/* 200 g of it is over at once, and 100 g with the same chance as half of it against half the limit
 */
static void
scales_without_loss(void **state)
{
    (void)state;
    struct distribution d = distribution_range(0.1, 0.2, 0.8), twice = distribution_scale(&d, 2);
    assert_true(distribution_over(&twice, 1) == distribution_over(&d, 0.5));
    struct distribution two = distribution_exact(2), product = distribution_product(&d, &two);
    assert_memory_equal(&product, &twice, sizeof twice);
    struct distribution moved = distribution_sum(&d, &two);
    assert_true(distribution_over(&moved, 2.5) == distribution_over(&d, 0.5));
}

/* two rectangular ones from 0 to 1 make a triangle: above 1.5 lies an eighth of it */
static void
sums_what_is_independent(void **state)
{
    (void)state;
    struct distribution d = distribution_below(1), sum = distribution_sum(&d, &d);
    assert_chance(&sum, 0.5, 0.875);
    assert_chance(&sum, 1, 0.5);
    assert_chance(&sum, 1.5, 0.125);
}

/* a narrow amount of a wide content, and the other way: the order is of no matter */
static void
order_is_of_no_matter(void **state)
{
    (void)state;
    struct distribution a = distribution_range(95, 100, 106), b = distribution_range(0, 0.01, 0.05);
    struct distribution ab = distribution_product(&a, &b), ba = distribution_product(&b, &a);
    assert_memory_equal(&ab, &ba, sizeof ab);
    ab = distribution_sum(&a, &b), ba = distribution_sum(&b, &a);
    assert_memory_equal(&ab, &ba, sizeof ab);
}

static void
more_is_never_less(void **state)
{
    (void)state;
    struct distribution sum = distribution_samples(1, 0.4);
    for (int k = 1; k < 12; k++) {
        struct distribution more = distribution_below(0.001 * k);
        struct distribution with = distribution_sum(&sum, &more);
        for (double limit = 0.3; limit < 3; limit += 0.1)
            assert_true(distribution_over(&with, limit) >= distribution_over(&sum, limit));
        sum = with;
    }
}

/* four pieces: their mean spreads half as wide as one of them */
static void
pieces_are_draws(void **state)
{
    (void)state;
    struct distribution piece = distribution_samples(100, 10);
    struct distribution four = distribution_draws(&piece, 4);
    assert_chance(&four, 400, 0.49); /* its median is a little below its mean */
    assert_chance(&four, 400 + 1.6449 * 20, 0.053);
    struct distribution none = distribution_draws(&piece, 0);
    assert_true(distribution_over(&none, 0) == 0);
    struct distribution half = distribution_draws(&piece, 0.5);
    assert_chance(&half, 50 + 1.6449 * 5, 0.055);
    struct distribution many = distribution_draws(&piece, 1e9);
    assert_chance(&many, 1.01e11, 0);
    assert_near(distribution_quantile(&many, 0.5), 1e11);
}

/* the bits of a long way of them: another machine must give the same */
static void
gives_the_same_bits_everywhere(void **state)
{
    (void)state;
    struct distribution sum = distribution_exact(0);
    for (int k = 1; k < 9; k++) {
        struct distribution content = distribution_samples(0.01 * k, 0.003 * k);
        struct distribution grams = distribution_range(8 * k, 10 * k, 13 * k);
        struct distribution load = distribution_product(&content, &grams);
        sum = distribution_sum(&sum, &load);
    }
    char text[40];
    snprintf(text, sizeof text, "%a", distribution_over(&sum, 20));
    assert_string_equal(text, "0x1.230c4a968f05p-1");
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(exact_is_over_or_not),
        cmocka_unit_test(samples_are_log_normal),
        cmocka_unit_test(range_keeps_its_percentiles),
        cmocka_unit_test(scales_without_loss),
        cmocka_unit_test(sums_what_is_independent),
        cmocka_unit_test(order_is_of_no_matter),
        cmocka_unit_test(more_is_never_less),
        cmocka_unit_test(pieces_are_draws),
        cmocka_unit_test(gives_the_same_bits_everywhere),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
