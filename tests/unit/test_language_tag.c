#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "read/language_tag.h"

/* RFC 5646, appendix A and section 2.1 */
static void
tags_of_the_standard_are_tags(void **state)
{
    (void)state;
    static const char *const tags[] = {"de",
                                       "en-GB",
                                       "zh-Hant",
                                       "zh-cmn-Hans-CN",
                                       "sr-Latn-RS",
                                       "sl-nedis",
                                       "de-CH-1901",
                                       "es-419",
                                       "x-whatever",
                                       "de-CH-x-phonebk",
                                       "hy-Latn-IT-arevela",
                                       "en-US-u-islamcal",
                                       "en-a-myext-b-another",
                                       "sl-rozaj-biske"};
    for (size_t i = 0; i < sizeof tags / sizeof *tags; i++)
        if (!language_tag_valid(slice_of(tags[i])))
            fail_msg("%s is a tag", tags[i]);
}

static void
what_has_another_shape_is_none(void **state)
{
    (void)state;
    static const char *const others[] = {"",
                                         "e",
                                         "en_GB",
                                         "en-",
                                         "-en",
                                         "en--GB",
                                         "a-DE",
                                         "en-GB-GB",
                                         "english language",
                                         "en-GB.UTF-8",
                                         "de-419-DE",
                                         "en-x",
                                         "en-u",
                                         "<en>",
                                         "abcdefghi",
                                         "12"};
    for (size_t i = 0; i < sizeof others / sizeof *others; i++)
        if (language_tag_valid(slice_of(others[i])))
            fail_msg("%s is no tag", others[i]);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(tags_of_the_standard_are_tags),
        cmocka_unit_test(what_has_another_shape_is_none),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
