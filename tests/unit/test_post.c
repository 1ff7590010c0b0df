#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "english.h"
#include "judge/rules.h"
#include "read/post.h"

#define FRONT "title: Soup\nportions: 2\ningredients: [1 cup milk]\n"
#define BODY "## Method\n1. Stir.\n"

struct read_post {
    struct arena *arena;
    struct notices notices;
    struct post post;
};

static struct read_post
read_bytes(const char *path, struct slice bytes)
{
    struct read_post r = {.arena = arena_open(1 << 14)};
    r.notices.arena = r.arena;
    post_read(r.arena, english(), &(struct post_bytes){path, bytes}, &r.notices, &r.post);
    return r;
}

static void
reads_a_post(void **state)
{
    static const char *const texts[] = {
        "---\n" FRONT "---\n" BODY,
        "\xef\xbb\xbf---\n" FRONT "---\n" BODY,
        "---  \n" FRONT "...\n" BODY,
        ("---\r\ntitle: Soup\r\nportions: 2\r\ningredients: [1 cup milk]\r\n---\r\n## Method\r\n1. "
         "Stir.\r\n"),
        "---\rtitle: Soup\rportions: 2\ringredients: [1 cup milk]\r---\r## Method\r1. Stir.\r",
    };
    (void)state;
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        struct read_post r = read_bytes("posts/Soup of the day.md", slice_of(texts[i]));
        assert_int_equal(r.notices.count, 0);
        assert_true(r.post.readable);
        assert_true(slice_is(r.post.slug, "soup-of-the-day"));
        assert_true(slice_is(r.post.front.title.text, "Soup"));
        assert_int_equal(r.post.front.title.place.line, 2);
        assert_int_equal(r.post.body.part_count, 1);
        assert_int_equal(r.post.body.parts[0].steps[0].place.line, 7);
        assert_int_equal(r.post.body.parts[0].steps[0].place.column, 4);
        arena_close(r.arena);
    }
}

static void
tells_unreadable_posts(void **state)
{
    static const struct {
        struct slice bytes;
        enum rule rule;
        uint32_t line, column;
        bool readable;
    } rows[] = {
        {{"", 0}, RULE_FILE_EMPTY, 0, 0, false},
        {{" \n\n", 3}, RULE_FILE_EMPTY, 0, 0, false},
        {{"\xef\xbb\xbf", 3}, RULE_FILE_EMPTY, 0, 0, false},
        {{"# Soup\n", 7}, RULE_FRONT_MATTER_MISSING, 1, 0, false},
        {{"----\na: b\n---\n", 14}, RULE_FRONT_MATTER_MISSING, 1, 0, false},
        {{"---\na: b\n", 9}, RULE_FRONT_MATTER_UNCLOSED, 1, 1, false},
        {{"---", 3}, RULE_FRONT_MATTER_UNCLOSED, 1, 1, false},
        {{"---\na: \xc3\x28\n---\n", 14}, RULE_NOT_UTF8, 2, 4, false},
        {{"---\na: b\n---\n\xff\xfe", 15}, RULE_NOT_UTF8, 4, 1, false},
        {{"---\n- a\n---\n" BODY, 12 + sizeof BODY - 1}, RULE_VALUE_WRONG_TYPE, 2, 1, false},
        {{"---\na: [\n---\n" BODY, 13 + sizeof BODY - 1}, RULE_YAML_BROKEN, 3, 1, false},
        {{"---\n" FRONT "a: \tb\n---\n" BODY, 14 + sizeof FRONT BODY - 1},
         RULE_KEY_UNKNOWN,
         5,
         1,
         true},
        {{"---\n" FRONT "---\nx\xe2\x80\xae"
          "y\n\n" BODY,
          15 + sizeof FRONT BODY - 1},
         RULE_CHARACTER_HIDDEN,
         6,
         2,
         true},
        {{"---\n" FRONT "---\nx\0y\n\n" BODY, 13 + sizeof FRONT BODY - 1},
         RULE_CHARACTER_HIDDEN,
         6,
         2,
         true},
        {{"---\n" FRONT "slug: Ä b/../c\n---\n" BODY, 24 + sizeof FRONT BODY - 1},
         RULE_VALUE_UNREADABLE,
         5,
         7,
         true},
    };
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct read_post r = read_bytes("a.md", rows[i].bytes);
        const struct notice *n = r.notices.items;
        if (r.notices.count != 1 || n->rule != rows[i].rule || n->place.line != rows[i].line ||
            n->place.column != rows[i].column || r.post.readable != rows[i].readable)
            fail_msg("row %zu: %zu notices, %s at %u:%u", i, r.notices.count,
                     r.notices.count ? rules_row(n->rule)->id : "", n->place.line, n->place.column);
        arena_close(r.arena);
    }
}

static void
never_reads_large_files(void **state)
{
    (void)state;
    size_t length = POST_BYTES_MOST + 1;
    char *bytes = test_malloc(length);
    memset(bytes, '[', length);
    memcpy(bytes, "---\n", 4);
    struct read_post r = read_bytes("a.md", (struct slice){bytes, length});
    assert_int_equal(r.notices.count, 1);
    assert_int_equal(r.notices.items[0].rule, RULE_FILE_TOO_LARGE);
    assert_int_equal(arena_size(r.arena), 1 << 14);
    assert_true(slice_is(r.post.slug, "a"));
    arena_close(r.arena);
    test_free(bytes);
}

static void
makes_slugs(void **state)
{
    static const char *const rows[][2] = {
        {"Crème brûlée", "creme-brulee"},
        {"  Smørrebrød & Æbler  ", "smorrebrod-aebler"},
        {"Straße", "strasse"},
        {"ﬁne ½ tart", "fine-1-2-tart"},
        {"Cook's “best” soup", "cooks-best-soup"},
        {"../../etc/passwd", "etc-passwd"},
        {"a--b__c", "a-b-c"},
        {"Łódź", "lodz"},
        {"UPPER", "upper"},
    };
    (void)state;
    struct arena *a = arena_open(4096);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        assert_string_equal(slice_string(a, post_slug(a, slice_of(rows[i][0]))), rows[i][1]);
    struct slice one = post_slug(a, SLICE("麻婆豆腐")), other = post_slug(a, SLICE("豆腐"));
    assert_true(slice_begins(one, "post-"));
    assert_false(slice_equal(one, other));
    assert_true(post_slug(a, SLICE("")).length > 0);
    assert_true(post_slug(a, SLICE("\xff\xfe")).length > 0);
    char name[1000];
    memset(name, 'x', sizeof name);
    assert_int_equal(post_slug(a, (struct slice){name, sizeof name}).length, 100);
    arena_close(a);
}

static void
tells_reserved_names(void **state)
{
    static const struct {
        const char *path;
        bool reserved;
    } rows[] = {
        {"posts/con.md", true},  {"Nul.md", true},      {"posts/COM9.md", true},
        {"lpt1.soup.md", true},  {"what?.md", true},    {"soup.md.", true},
        {"a:b.md", true},        {"posts/soup ", true}, {"console.md", false},
        {"com10.md", false},     {"com0.md", false},    {"nul/soup.md", false},
        {"con-carne.md", false}, {"lpt.md", false},
    };
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct read_post r = read_bytes(rows[i].path, SLICE("---\n" FRONT "---\n" BODY));
        if ((r.notices.count == 1 && r.notices.items[0].rule == RULE_NAME_RESERVED) !=
                rows[i].reserved ||
            r.notices.count > 1)
            fail_msg("%s: %zu notices", rows[i].path, r.notices.count);
        arena_close(r.arena);
    }
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(reads_a_post),
        cmocka_unit_test(tells_unreadable_posts),
        cmocka_unit_test(never_reads_large_files),
        cmocka_unit_test(makes_slugs),
        cmocka_unit_test(tells_reserved_names),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
