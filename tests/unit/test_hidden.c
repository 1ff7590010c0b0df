#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>
#include <unistr.h>

#include "read/hidden.h"

/* every character at three places in a line: before, across and behind a stride */
static void
what_is_absent_is_not_found(void **state)
{
    (void)state;
    for (ucs4_t c = 0; c < 0x110000; c++) {
        char bytes[40];
        uint32_t code;
        for (size_t at = 0; at < 30; at += 14) {
            memset(bytes, 'a', sizeof bytes);
            bytes[20] = '\n';
            int n = u8_uctomb((uint8_t *)bytes + at, c, (ptrdiff_t)(sizeof bytes - at));
            if (n < 0)
                continue; /* a surrogate */
            struct slice s = {bytes, sizeof bytes};
            assert_int_equal(hidden_absent(s), hidden_find(s, 0, &code) == SIZE_MAX);
        }
    }
}

static void
what_is_no_utf8_is_not_clean(void **state)
{
    (void)state;
    static const char *const wrong[] = {"\xff",         "\x80",     "\xc3",     "\xe2\x80",
                                        "\xed\xa0\x80", "\xc0\x80", "½\xbd\x41"};
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++)
        assert_false(hidden_absent(slice_of(wrong[i])));
    assert_true(hidden_absent(SLICE("½ “cup”\tof rice\r\n, – and that is all of it")));
    assert_true(hidden_absent(SLICE("")));
    /* a joiner may be at work: it has to be looked for */
    assert_false(hidden_absent(SLICE("न\u200dम")));
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_is_absent_is_not_found),
        cmocka_unit_test(what_is_no_utf8_is_not_clean),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
