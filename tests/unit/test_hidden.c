#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>
#include <unistr.h>

#include "read/hidden.h"

/* what is found anywhere in a line is taken out of it, and nothing else */
static void
what_is_found_is_stripped(void **state)
{
    (void)state;
    struct arena *a = arena_open(4096);
    size_t hidden = 0;
    for (ucs4_t c = 0; c < 0x110000; c += c < 0x10000 ? 1 : 7) {
        char bytes[12] = "aaaaaaaaaaa";
        uint32_t code;
        int n = u8_uctomb((uint8_t *)bytes + 3, c, 8);
        if (n < 0)
            continue; /* a surrogate */
        struct slice s = {bytes, 11};
        const size_t at = hidden_find(s, 0, &code);
        const struct slice left = hidden_strip(a, s);
        assert_true(at == SIZE_MAX || (at == 3 && code == c));
        assert_int_equal(left.length, at == SIZE_MAX ? s.length : s.length - (size_t)n);
        assert_int_equal(hidden_find(left, 0, &code), SIZE_MAX);
        hidden += at != SIZE_MAX;
        arena_reset(a);
    }
    assert_true(hidden > 100 && hidden < 1000);
    arena_close(a);
}

static void
joiners_at_work_stay(void **state)
{
    (void)state;
    uint32_t code;
    assert_int_equal(hidden_find(SLICE("½ “cup”\tof rice\r\n, – and all"), 0, &code), SIZE_MAX);
    assert_int_equal(hidden_find(SLICE("न\u200dम"), 0, &code), SIZE_MAX);
    assert_int_equal(hidden_find(SLICE("ab\u200dcd"), 0, &code), 2);
    assert_int_equal(code, 0x200d);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_found_is_stripped),
        cmocka_unit_test(joiners_at_work_stay),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
