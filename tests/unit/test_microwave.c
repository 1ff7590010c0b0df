/* Microwave times: the same energy at another power. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "english.h"
#include "reckon/microwave.h"

static const double watts[] = {600, 700, 800, 1000};

static struct microwave
lay(struct arena *a, const char *method)
{
    struct notices notices = {.arena = a};
    struct body body;
    struct schedule s;
    struct microwave m;
    const struct slice text = text_formatted(a, "## Method\n%s", method);
    body_read(a, &(struct body_range){text, 0, text.length, 1, english()}, BODY_RECIPE, &notices,
              &body);
    schedule_read(a, &body, NULL, &s);
    microwave_read(a, &body, &s, watts, 4, &m);
    return m;
}

/* t x P / P', by hand: 120 s x 800 W = 96 kJ; / 600 = 160; / 700 = 137.14 up to 140; / 1000 = 96 up
 * to 100 */
static void
keeps_the_energy(void **state)
{
    (void)state;
    struct arena *a = arena_open(4096);
    struct microwave m = lay(a, "1. Microwave for 2 minutes at 800 W.\n");
    assert_int_equal(m.count, 1);
    assert_int_equal(m.bare_count, 0);
    assert_float_equal(m.rows[0].watts, 800, 0);
    assert_float_equal(m.rows[0].seconds[0], 160, 0);
    assert_float_equal(m.rows[0].seconds[1], 140, 0);
    assert_float_equal(m.rows[0].seconds[2], 120, 0);
    assert_float_equal(m.rows[0].seconds[3], 100, 0);
    assert_float_equal(microwave_seconds(90, 900, 900), 90, 0);
    arena_close(a);
}

static void
tells_microwave_times_from_others(void **state)
{
    (void)state;
    static const struct {
        const char *method;
        size_t rows, bare;
    } methods[] = {
        {"1. Microwave on high (900 W) for 3 minutes, then leave to stand for 2 minutes.\n", 1, 0},
        {"1. Microwave for 3 minutes.\n", 0, 1},
        {"1. Cook in the microwave on high for 90 seconds.\n", 0, 1},
        {"1. Microwave at 800 W for 2 minutes. Stir.\n2. Microwave 1 minute more.\n", 2, 0},
        {"1. Microwave at 800 W for 2 minutes.\n2. Microwave on medium for 1 minute.\n", 1, 1},
        {"1. Melt in the microwave at 600 W in 20-second bursts.\n", 0, 0},
        {"1. Bake for 20 minutes, or microwave at 700 W for 6 minutes.\n", 1, 0},
        {"1. Simmer for 20 minutes. A microwave will not do.\n", 0, 0},
        {"1. Microwave for 2 minutes.\n\n## Notes\nTested at 800 W.\n", 1, 0},
        {"1. Put in a microwave-safe bowl. Simmer the sauce in a pan for 10 minutes.\n", 0, 0},
    };
    struct arena *a = arena_open(4096);
    for (size_t i = 0; i < sizeof methods / sizeof *methods; i++) {
        struct microwave m = lay(a, methods[i].method);
        if (m.count != methods[i].rows || m.bare_count != methods[i].bare)
            fail_msg("%s: %zu with, %zu without a power", methods[i].method, m.count, m.bare_count);
    }
    arena_close(a);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(keeps_the_energy),
        cmocka_unit_test(tells_microwave_times_from_others),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
