#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "english.h"
#include "judge/rules.h"
#include "read/body.h"
#include "read/body_lines.h"
#include "read/link.h"

struct read_body {
    struct arena *arena;
    struct notices notices;
    struct body body;
};

static struct read_body
read_bytes(struct slice bytes)
{
    struct read_body r = {.arena = arena_open(1 << 14)};
    r.notices.arena = r.arena;
    body_read(r.arena, &(struct body_range){bytes, 0, bytes.length, 1, english()}, BODY_RECIPE,
              &r.notices, &r.body);
    return r;
}

static struct read_body
read_body(const char *text)
{
    return read_bytes(slice_of(text));
}

static const char *
html_of(struct read_body *r)
{
    struct arena *before = arena_lend(r->arena);
    const char *html = cmark_render_html(r->body.document, CMARK_OPT_UNSAFE);
    arena_lend(before);
    return html;
}

static void
divides_sections(void **state)
{
    (void)state;
    struct read_body r =
        read_body("Some *prose*.\n\n## About\n\nMore.\n\n## Method\n\n### The dough\n"
                  "1. Mix.\n2. Rest\n   30 min.\n\n### The sauce\n\nStir.\n\nServe.\n\n"
                  "### Notes\n\nKeep.\n\n## Storage\n\n3 days.\n");
    assert_int_equal(r.notices.count, 0);
    assert_true(slice_is(r.body.prose.text, "Some prose. About More."));
    assert_true(r.body.has_method);
    assert_int_equal(r.body.part_count, 2);
    assert_true(slice_is(r.body.parts[0].name, "The dough"));
    assert_int_equal(r.body.parts[0].place.line, 9);
    assert_int_equal(r.body.parts[0].count, 2);
    assert_true(slice_is(r.body.parts[0].steps[1].text, "Rest 30 min."));
    assert_int_equal(r.body.parts[0].steps[1].place.line, 11);
    assert_int_equal(r.body.parts[0].steps[1].place.column, 4);
    assert_int_equal(r.body.parts[1].count, 2);
    assert_true(slice_is(r.body.parts[1].steps[1].text, "Serve."));
    assert_true(slice_is(r.body.notes.text, "Keep. Storage 3 days."));
    arena_close(r.arena);
}

static void
keeps_parts_of_the_method(void **state)
{
    (void)state;
    struct read_body r = read_body("**Directions**\n\nBake.\n\n**For the icing:**\n\nMix.\n\n"
                                   "### To serve\n\nSlice.\n\n**Do not touch it!**\n\n"
                                   "### Tips\n\nUse soft butter.\n\n## Last touch\n\n1. Dust.\n");
    assert_int_equal(r.notices.count, 0);
    assert_int_equal(r.body.part_count, 4);
    assert_true(slice_is(r.body.parts[0].steps[0].text, "Bake."));
    assert_true(slice_is(r.body.parts[1].name, "For the icing"));
    assert_true(slice_is(r.body.parts[2].name, "To serve"));
    assert_int_equal(r.body.parts[2].count, 2);
    assert_true(slice_is(r.body.parts[3].name, "Last touch"));
    assert_true(slice_is(r.body.notes.text, "Tips Use soft butter."));
    arena_close(r.arena);
}

static void
knows_method_headings(void **state)
{
    static const struct {
        const char *text, *part;
        bool method;
    } rows[] = {
        {"## Method\n1. a\n", "", true},
        {"# DIRECTIONS:\n1. a\n", "", true},
        {"### Instructions\n- a\n", "", true},
        {"Method\n------\na\n", "", true},
        {"## Method: the relish\n1. a\n", "the relish", true},
        {"## Method for the relish\n1. a\n", "the relish", true},
        {"## Method – relish\n1. a\n", "relish", true},
        {"## **Method**\n1. a\n", "", true},
        {"## Methods of old\n1. a\n", NULL, false},
        {"1. a\n2. b\n", NULL, false},
        {"", NULL, false},
        {"## Method\n", NULL, false},
    };
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct read_body r = read_body(rows[i].text);
        if (rows[i].method) {
            assert_int_equal(r.notices.count, 0);
            assert_int_equal(r.body.part_count, 1);
            assert_int_equal(r.body.parts[0].count, 1);
            assert_true(slice_is(r.body.parts[0].name, rows[i].part));
        } else {
            assert_int_equal(r.notices.count, 1);
            assert_int_equal(r.notices.items[0].rule, RULE_METHOD_MISSING);
        }
        arena_close(r.arena);
    }
}

static void
knows_places_of_words(void **state)
{
    static const struct {
        const char *words;
        size_t which; /* the words' occurrence, from 0 */
        uint32_t line, column, length;
    } rows[] = {
        {"Bring", 0, 4, 4, 5},     {"the water", 0, 4, 4, 0},  {"stir for 5 minutes", 0, 5, 10, 18},
        {"5 minutes", 1, 7, 7, 9}, {"½", 0, 6, 10, 1},         {"after", 0, 7, 23, 5},
        {"nested", 0, 8, 6, 6},    {"the boil", 0, 4, 25, 11},
    };
    (void)state;
    /* "the boil" stands over a line break */
    struct read_body r =
        read_body("x\n\n## Method\n1. Bring the *water* to the\n   boil, stir for 5 minutes,\n"
                  "   add é ½ cup and\r\n   in 5 minutes, `so` after.\n   - nested\n");
    struct step *step = &r.body.parts[0].steps[0];
    assert_true(slice_is(step->text, "Bring the water to the boil, stir for 5 minutes, add é ½ cup "
                                     "and in 5 minutes, so after. nested"));
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        size_t at = slice_find(step->text, rows[i].words, 0);
        for (size_t n = 0; n < rows[i].which; n++)
            at = slice_find(step->text, rows[i].words, at + 1);
        assert_int_not_equal(at, SIZE_MAX);
        struct place p = body_step_place(step, at, at + strlen(rows[i].words));
        if (p.line != rows[i].line || p.column != rows[i].column || p.length != rows[i].length)
            fail_msg("%s at %u:%u+%u", rows[i].words, p.line, p.column, p.length);
    }
    assert_true(step->run_count >= 7);
    for (size_t i = 0; i < step->run_count; i++) {
        struct slice run = slice_of(cmark_node_get_literal(step->runs[i].node));
        assert_true(slice_equal(
            run, slice_part(step->text, step->runs[i].from, step->runs[i].from + run.length)));
    }
    arena_close(r.arena);
}

static void
publishes_no_html(void **state)
{
    static const struct {
        const char *text, *html;
        size_t notices;
        uint32_t column;
    } rows[] = {
        {"a <b onclick=x>c</b> d", "<p>a c d</p>\n", 2, 3},
        {"<script>alert(1)</script>", "", 1, 1},
        {"<div>\nx\n</div>", "", 1, 1},
        {"[x](javascript:alert(1))", "<p>x</p>\n", 1, 5},
        {"[x](JaVaScRiPt:alert(1))", "<p>x</p>\n", 1, 5},
        {"[x](java&#x73;cript:y)", "<p>x</p>\n", 1, 1},
        {"[x](<java&Tab;script:y>)", "<p>x</p>\n", 1, 1},
        {"[x](&#1;javascript:y)", "<p>x</p>\n", 1, 1},
        {"[x](vbscript:y) [z](data:text/html,q)", "<p>x z</p>\n", 2, 5},
        {"![x](data:image/svg+xml,q)", "<p>x</p>\n", 1, 6},
        {"[x][r]\n\n[r]: javascript:y", "<p>x</p>\n", 1, 1},
        {"<javascript:alert(1)>", "<p>javascript:alert(1)</p>\n", 1, 2},
        {"[x](https://a.example/?b=c:d)", "<p><a href=\"https://a.example/?b=c:d\">x</a></p>\n", 0,
         0},
        {"[x](../a:b) <m@a.example>",
         "<p><a href=\"../a:b\">x</a> <a href=\"mailto:m@a.example\">m@a.example</a></p>\n", 0, 0},
        {"a<br>b <!-- c -->", "<p>a<br />\nb </p>\n", 0, 0},
        {"a&#x202e;b", "<p>ab</p>\n", 1, 1},
        {"a\xe2\x80\xae"
         "b",
         "<p>ab</p>\n", 0, 0}, /* the post has told of it */
    };
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct read_body r = read_body(rows[i].text);
        size_t count = r.notices.count - 1; /* and the method is missing */
        if (strcmp(html_of(&r), rows[i].html) != 0 || count != rows[i].notices ||
            (count > 0 && r.notices.items[0].place.column != rows[i].column))
            fail_msg("%s: %zu notices, first at %u, %s", rows[i].text, count,
                     r.notices.items[0].place.column, html_of(&r));
        arena_close(r.arena);
    }
}

static void
tells_safe_links(void **state)
{
    (void)state;
    assert_true(link_is_safe(SLICE("")));
    assert_true(link_is_safe(SLICE("a/b")));
    assert_true(link_is_safe(SLICE("//host/a")));
    assert_true(link_is_safe(SLICE("?a:b")));
    assert_true(link_is_safe(SLICE("#a:b")));
    assert_true(link_is_safe(SLICE("HTTPS://a")));
    assert_false(link_is_safe(SLICE("tel:1")));
    assert_false(link_is_safe(SLICE(" https://a")));
    assert_false(link_is_safe(SLICE("java\nscript:x")));
    assert_false(link_is_safe(SLICE(":x")));
}

/* shapes that made parsers slow or deep; each must be done in the blink of an eye */
static void
bounds_bad_bodies(void **state)
{
    static const struct {
        const char *again;
        size_t times;
        const char *tail;
        bool refused;
    } rows[] = {
        {">", 100000, "a\n", true},
        {"> ", 60, "a\n", true},
        {"- ", 100000, "a\n\n\n", true},
        {"1. ", 5000, "a\n", true},
        {"[", 100000, "\n", false},
        {"*a _b ", 50000, "\n", false},
        {"![[](", 50000, "\n", false},
        {"<", 100000, "\n", false},
        {"`a``", 50000, "\n", false},
        {"&", 100000, "\n", false},
        {"a\n\n", 100000, "\n", false},
        {"<!--", 20000, "\n", false},
        {"[a]", 300000, "\n\n[a]: x\n", true},
    };
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct arena *a = arena_open(1 << 16);
        struct text t = text_new(a);
        for (size_t n = 0; n < rows[i].times; n++)
            text_add_string(&t, rows[i].again);
        text_add_string(&t, rows[i].tail);
        struct read_body r = read_bytes(text_slice(&t));
        assert_non_null(r.body.document);
        assert_int_equal(r.notices.items[0].rule == RULE_BODY_TOO_DEEP, rows[i].refused);
        arena_close(r.arena);
        arena_close(a);
    }
}

/* one definition as long as a chapter, used again and again, would be copied each time */
static void
bounds_definitions(void **state)
{
    (void)state;
    struct arena *a = arena_open(1 << 16);
    struct text t = text_new(a);
    text_add_string(&t, "[a]: /");
    for (size_t n = 0; n < 100000; n++)
        text_add_string(&t, "x");
    text_add_string(&t, "\n\n");
    for (size_t n = 0; n < 100000; n++)
        text_add_string(&t, "[a]");
    struct read_body r = read_bytes(text_slice(&t));
    assert_int_equal(r.notices.items[0].rule, RULE_BODY_TOO_DEEP);
    arena_close(r.arena);
    arena_close(a);
}

/* any byte at any place of a line, and no break is passed over */
static void
ends_lines_at_breaks_alone(void **state)
{
    (void)state;
    char bytes[24];
    for (int byte = 0; byte < 256; byte++)
        for (size_t at = 0; at < sizeof bytes; at++)
            for (size_t stop = at; stop < sizeof bytes; stop++) {
                memset(bytes, at % 2 == 0 ? 'x' : '\x0e', sizeof bytes);
                bytes[at] = (char)byte;
                bytes[stop] = stop % 3 == 0 ? '\r' : '\n';
                bool ends = stop != at && (byte == '\r' || byte == '\n');
                struct slice s = {bytes, sizeof bytes};
                assert_int_equal(body_line_end(s, 0), ends ? at : stop);
            }
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(divides_sections),           cmocka_unit_test(keeps_parts_of_the_method),
        cmocka_unit_test(knows_method_headings),      cmocka_unit_test(knows_places_of_words),
        cmocka_unit_test(publishes_no_html),          cmocka_unit_test(tells_safe_links),
        cmocka_unit_test(bounds_bad_bodies),          cmocka_unit_test(bounds_definitions),
        cmocka_unit_test(ends_lines_at_breaks_alone),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
