/* The size of pictures: the first bytes of each kind, made by hand after its specification. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "read/picture_size.h"

static void
gives(struct slice bytes, double width, double height)
{
    const struct picture_size size = picture_size_read(bytes);
    if (size.width != width || size.height != height)
        fail_msg("%g x %g, not %g x %g", size.width, size.height, width, height);
    for (size_t cut = 0; cut < bytes.length; cut++)
        (void)picture_size_read(slice_part(bytes, 0, cut)); /* nothing is read behind the end */
}

static void
each_kind_says_its_size(void **state)
{
    (void)state;
    gives(SLICE("\x89PNG\r\n\x1a\n\0\0\0\rIHDR\0\0\4\xb0\0\0\3\x20\x08\2\0\0\0"), 1200, 800);
    gives(SLICE("GIF89a\x40\1\xf0\0\0\0\0"), 320, 240);
    gives(SLICE("\xff\xd8\xff\xe0\0\6JFIF\xff\xc4\0\4\1\2\xff\xc2\0\x11\x08\2\x58\3\x20\3\1\x22\0"),
          800, 600);
    gives(SLICE("RIFF\x24\0\0\0WEBPVP8 \x18\0\0\0\x30\1\0\x9d\1\x2a\x40\1\xf0\0\1\0"), 320, 240);
    gives(SLICE("RIFF\x24\0\0\0WEBPVP8L\x18\0\0\0\x2f\x3f\xc1\x3b\0\0\0"), 320, 240);
    gives(SLICE("RIFF\x24\0\0\0WEBPVP8X\x0a\0\0\0\0\0\0\0\x3f\1\0\xef\0\0"), 320, 240);
    gives(SLICE("<?xml version=\"1.0\"?><svg width=\"800\" height=\"600px\" viewBox=\"0 0 4 3\">"),
          800, 600);
    gives(SLICE("<svg viewBox='0 0 400.5,300' width='100%'>"), 400.5, 300);
}

static void
what_is_no_picture_has_none(void **state)
{
    (void)state;
    gives(SLICE(""), 0, 0);
    gives(SLICE("\xff\xd8\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff"), 0, 0);
    gives(SLICE("\xff\xd8\xff\xe0\0\0\xff\xe0\0\0\0\0\0\0\0\0"), 0, 0);
    gives(SLICE("<svg>"), 0, 0);
    gives(SLICE("<svg width=\"99999999\" height=\"1\">"), 0, 0);
    gives(SLICE("a page"), 0, 0);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(each_kind_says_its_size),
                                       cmocka_unit_test(what_is_no_picture_has_none)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
