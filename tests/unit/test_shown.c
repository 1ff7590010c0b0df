/* Words on their way to a terminal. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
/* cmocka wants those first */
#include <cmocka.h>

#include "base/failure.h"
#include "base/shown.h"

#define R "\xef\xbf\xbd"

static const struct {
    const char *said, *shown, *printed;
} rows[] = {
    {"soup", "soup", "soup"},
    {"caf\xc3\xa9 \xe6\xb1\xa4 \xf0\x9f\x8d\xb2", "caf\xc3\xa9 \xe6\xb1\xa4 \xf0\x9f\x8d\xb2",
     "caf\xc3\xa9 \xe6\xb1\xa4 \xf0\x9f\x8d\xb2"},
    {"a\nb\tc", "a b c", "a\nb\tc"},
    {"\x1b[31mred\x07\r", R "[31mred" R R, R "[31mred" R R},
    {"\xc2\x9b"
     "2J",
     R "2J", R "2J"}, /* the control sequence introducer in one byte */
    {"a\xe2\x80\xae"
     "b",
     "a" R "b", "a" R "b"},         /* right-to-left override */
    {"\xe0\x8c\x9a", R R R, R R R}, /* longer than it need be */
    {"\xed\xa0\x80", R R R, R R R}, /* half of a pair */
    {"a\xff"
     "b\xc3",
     "a" R "b" R, "a" R "b" R},
    {"", "", ""},
};

static void
nothing_hidden_is_shown(void **state)
{
    (void)state;
    struct arena *a = arena_open(4096);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        char bytes[256];
        struct text t = text_new(a);
        shown_add(&t, slice_of(rows[i].said));
        assert_true(slice_is(text_slice(&t), rows[i].shown));
        FILE *to = fmemopen(bytes, sizeof bytes, "w");
        assert_true(shown_put(to, slice_of(rows[i].said)));
        fputc('\0', to);
        fclose(to);
        assert_string_equal(bytes, rows[i].printed);
    }
    arena_close(a);
}

static void
a_failure_is_clean(void **state)
{
    (void)state;
    struct failure f;
    assert_false(failure_say(&f, "%s", "posts/\x1b[2J.md\n"));
    assert_string_equal(f.text, "posts/?[2J.md?");
}

int
main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(nothing_hidden_is_shown),
                                       cmocka_unit_test(a_failure_is_clean)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
