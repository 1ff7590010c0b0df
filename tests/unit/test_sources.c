#include "own_tables.h"

static void
ids_in_the_middle_get_their_short_name(void **state)
{
    (void)state;
    static const struct {
        const char *words, *front_value;
    } rows[] = {
        {"from ab12 B014, B015 by cd-ef 16070", "from A and B 2012 B014, B015 by Works of C 16070"},
        {"ab12", "A and B 2012"},
        {"(ab12, remembered)", "(A and B 2012, remembered)"},
        {"ab123 and xab12 are others", "ab123 and xab12 are others"},
        {"no id at all: 0.5 g", "no id at all: 0.5 g"},
        {"", ""},
    };
    struct arena *a = arena_open(16384);
    struct notices n = {.arena = a};
    struct sources s = {.count = 0};
    sources_load(a,
                 yaml_of(a,
                         "sources:\n"
                         "  ab12: {title: A long title, short: A and B 2012}\n"
                         "  cd-ef: {title: Works of C}\n",
                         &n),
                 &n, &s);
    assert_int_equal(n.count, 0);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct text out = text_new(a);
        sources_add_words(&s, slice_of(rows[i].words), &out);
        if (!slice_is(text_slice(&out), rows[i].front_value))
            fail_msg("%s: %.*s", rows[i].words, SLICE_ARGS(text_slice(&out)));
    }
    arena_close(a);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(ids_in_the_middle_get_their_short_name),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
