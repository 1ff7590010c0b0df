/* The names of outputs: what a press writes has one, what it could not write has none. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
/* cmocka wants those first */
#include <cmocka.h>

#include "press/outputs.h"

static void
an_output_lies_in_its_folder(void **state)
{
    (void)state;
    static const struct {
        const char *pattern, *name;
        enum output_folder folder;
    } rows[] = {{"fragments/*.html", "soup-2.html", FOLDER_FRAGMENTS},
                {"fragments/*.uk.html", "soup-2.uk.html", FOLDER_FRAGMENTS},
                {"data/*.json", "soup-2.json", FOLDER_DATA},
                {"preview/*.html", "soup-2.html", FOLDER_PREVIEW},
                {"images/*.svg", "soup-2.svg", FOLDER_IMAGES}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        char name[OUTPUT_NAME_MOST];
        enum output_folder folder;
        assert_true(outputs_name(slice_of(rows[i].pattern), SLICE("soup-2"), name, &folder));
        assert_string_equal(name, rows[i].name);
        assert_int_equal(folder, rows[i].folder);
    }
}

static void
nothing_else_has_a_name(void **state)
{
    (void)state;
    static const char *const patterns[] = {"",
                                           "*",
                                           "data",
                                           "data/",
                                           "data/*",
                                           "data/.json",
                                           "data/*.html",
                                           "/data/*.json",
                                           "../data/*.json",
                                           "data/../*.json",
                                           "data/x*.json",
                                           "data/**.json",
                                           "data/*.json/x",
                                           "fragments/*.a/b.html",
                                           "fragments/*..html",
                                           "fragments/*.A.html",
                                           "images/*.",
                                           "images/*.a/b",
                                           "out/*.json",
                                           "preview/*.uk.html"};
    static const char *const slugs[] = {"", ".", "..", "a/b", "/a", "A", "a.b", "a\nb", "\xc3\xa4"};
    char name[OUTPUT_NAME_MOST];
    enum output_folder folder;
    for (size_t i = 0; i < sizeof patterns / sizeof *patterns; i++) {
        if (outputs_pattern(slice_of(patterns[i])))
            fail_msg("'%s' is taken for a pattern", patterns[i]);
        assert_false(outputs_name(slice_of(patterns[i]), SLICE("soup"), name, &folder));
    }
    for (size_t i = 0; i < sizeof slugs / sizeof *slugs; i++)
        assert_false(outputs_name(SLICE("data/*.json"), slice_of(slugs[i]), name, &folder));
}

int
main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(an_output_lies_in_its_folder),
                                       cmocka_unit_test(nothing_else_has_a_name)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
