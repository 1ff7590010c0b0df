/* Which pictures of posts are published, and what is said of those that are not. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

#include "judge/picture.h"

struct shelf {
    enum picture_found gives;
    size_t asked;
};

static enum picture_found
look(void *ctx, struct slice file, struct slice *bytes)
{
    struct shelf *shelf = ctx;
    (void)file;
    (void)bytes;
    shelf->asked++;
    return shelf->gives;
}

static struct picture
judge(struct arena *a, const char *file, enum picture_found gives, struct notices *notices,
      size_t *asked)
{
    struct shelf shelf = {gives, 0};
    const struct picture_finder finder = {look, &shelf};
    struct post post = {0};
    struct picture out;
    post.front.image_file = (struct front_value){slice_of(file), {7, 15, 3}};
    *notices = (struct notices){.arena = a};
    picture_judge(&post, &finder, notices, &out);
    *asked = shelf.asked;
    return out;
}

static void
files_of_the_blog_are_published(void **state)
{
    static const struct {
        const char *file, *ending;
    } rows[] = {{"a.svg", "svg"},
                {"images/A plate.JPG", "jpg"},
                {"./x/y.webp", "webp"},
                {"a..b/c...png", "png"},
                {"..a.jpeg", "jpeg"},
                {"a.tar.gif", "gif"},
                {"deep/er/still.avif", "avif"}};
    struct notices n;
    size_t asked;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct picture p = judge(*state, rows[i].file, PICTURE_FOUND, &n, &asked);
        assert_int_equal(p.state, PICTURE_HERE);
        assert_string_equal(p.ending, rows[i].ending);
        assert_int_equal(n.count, 0);
        assert_int_equal(asked, 1);
    }
}

static void
paths_that_lead_out_are_never_looked_for(void **state)
{
    static const char *const rows[] = {"../a.svg", "/etc/a.svg", "x/../../a.svg", "x/..",
                                       "..",       "//b/a.svg",  "a.html",        "a.svg.html",
                                       "a",        "x/.svg",     ".png",          "a.svg/",
                                       "a.svgz",   "x.y/a",      "mailto:a@b"};
    struct notices n;
    size_t asked;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct picture p = judge(*state, rows[i], PICTURE_FOUND, &n, &asked);
        assert_int_equal(p.state, PICTURE_NONE);
        assert_int_equal(asked, 0);
        assert_int_equal(n.count, 1);
        assert_int_equal(n.items[0].rule, RULE_IMAGE_FILE);
        assert_int_equal(n.items[0].place.line, 7);
        assert_int_equal(n.items[0].place.column, 15);
    }
}

static void
what_is_not_there_is_told(void **state)
{
    struct notices n;
    size_t asked;
    assert_int_equal(judge(*state, "a.png", PICTURE_MISSING, &n, &asked).state, PICTURE_NONE);
    assert_true(slice_find(n.items[0].more, "neither beside", 0) != SIZE_MAX);
    assert_int_equal(judge(*state, "a.png", PICTURE_TOO_LARGE, &n, &asked).state, PICTURE_NONE);
    assert_true(slice_find(n.items[0].more, "16 MB", 0) != SIZE_MAX);
    assert_int_equal(judge(*state, "", PICTURE_MISSING, &n, &asked).state, PICTURE_NONE);
    assert_int_equal(n.count, 0);
    assert_int_equal(judge(*state, "https://a.example/../b", PICTURE_MISSING, &n, &asked).state,
                     PICTURE_AWAY);
    assert_int_equal(n.count + asked, 0);
}

static int
open_arena(void **state)
{
    *state = arena_open(1 << 16);
    return 0;
}

static int
close_arena(void **state)
{
    arena_close(*state);
    return 0;
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(files_of_the_blog_are_published),
        cmocka_unit_test(paths_that_lead_out_are_never_looked_for),
        cmocka_unit_test(what_is_not_there_is_told),
    };
    return cmocka_run_group_tests(tests, open_arena, close_arena);
}
