/* JSON as it is written, read back by Jansson; and CommonMark as HTML. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>
#include <jansson.h>

#include "write/markup.h"
#include "write/json_writer.h"

static void
texts_read_back_as_they_were(void **state)
{
    (void)state;
    static const char *const texts[] = {
        "plain",
        "\"quoted\" \\ back",
        "tab\tline\nreturn\r",
        "\x01\x1f\x7f",
        "½ crème 日本",
        "😀",
        "\xe2\x80\xa8 and \xe2\x80\xa9",
        "</script><!--",
    };
    struct arena *a = arena_open(4096);
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        struct text t = text_new(a);
        struct json_writer n = json_new(&t);
        json_open(&n, '[');
        json_text(&n, slice_of(texts[i]));
        json_close(&n, ']');
        assert_null(strchr(t.bytes, '<')); /* safe inside a script element */
        assert_null(strstr(t.bytes, "\xe2\x80\xa8"));
        json_t *read = json_loads(t.bytes, 0, NULL);
        assert_non_null(read);
        assert_string_equal(json_string_value(json_array_get(read, 0)), texts[i]);
        json_decref(read);
    }
    arena_close(a);
}

static void
broken_bytes_become_replacement_characters(void **state)
{
    (void)state;
    static const char *const rows[] = {
        ("a\xff"
         "b"),
        "\xc3",
        "\xed\xa0\x80" /* a surrogate */,
        "\xf5\x80\x80\x80",
        "\xc0\xaf" /* overlong */,
    };
    struct arena *a = arena_open(4096);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct text t = text_new(a);
        struct json_writer n = json_new(&t);
        json_text(&n, slice_of(rows[i]));
        json_t *read = json_loads(t.bytes, JSON_DECODE_ANY, NULL); /* refuses what is no UTF-8 */
        assert_non_null(read);
        assert_non_null(strstr(json_string_value(read), "\xef\xbf\xbd"));
        if (i == 0)
            assert_string_equal(json_string_value(read), "a\xef\xbf\xbd"
                                                         "b");
        json_decref(read);
    }
    arena_close(a);
}

static void
members_stand_in_order_with_commas(void **state)
{
    (void)state;
    struct arena *a = arena_open(4096);
    struct text t = text_new(a);
    struct json_writer n = json_new(&t);
    json_open(&n, '{');
    json_member_string(&n, "a", "x");
    json_member_string(&n, "left out", "");
    json_member_open(&n, "b", '[');
    json_number(&n, 0.1 + 0.2, 3);
    json_number(&n, 12, 0);
    json_number(&n, 1.0 / 0.0, 2);
    json_truth(&n, true);
    json_open(&n, '{');
    json_close(&n, '}');
    json_close(&n, ']');
    json_member_string(&n, "c", "y");
    json_close(&n, '}');
    assert_string_equal(t.bytes, "{\"a\":\"x\",\"b\":[0.3,12,null,true,{}],\"c\":\"y\"}");
    arena_close(a);
}

/* block HTML of a whole document */
static const char *
html_of(struct arena *a, const char *markdown)
{
    struct text t = text_new(a);
    cmark_node *doc = cmark_parse_document(markdown, strlen(markdown), CMARK_OPT_DEFAULT);
    text_add_string(&t, "");
    markup_blocks(&t, cmark_node_first_child(doc), cmark_node_last_child(doc), 3);
    cmark_node_free(doc);
    return t.bytes;
}

static void
blocks_are_written_as_the_standard_says(void **state)
{
    (void)state;
    struct arena *a = arena_open(4096);
    static const struct {
        const char *markdown, *html;
    } rows[] = {
        {"A *b* **c** `d<e`\nf", "<p>A <em>b</em> <strong>c</strong> <code>d&lt;e</code>\nf</p>\n"},
        {"# One\n\n### Three", "<h3>One</h3>\n<h4>Three</h4>\n"},
        {"## Two\n\n###### Six", "<h3>Two</h3>\n<h4>Six</h4>\n"},
        {"- a\n- b", "<ul>\n<li>a</li>\n<li>b</li>\n</ul>\n"},
        {"3. a\n\n4. b", "<ol start=\"3\">\n<li><p>a</p>\n</li>\n<li><p>b</p>\n</li>\n</ol>\n"},
        {"> q", "<blockquote>\n<p>q</p>\n</blockquote>\n"},
        {"    code & <b>", "<pre><code>code &amp; &lt;b&gt;\n</code></pre>\n"},
        {"a  \nb\n\n***", "<p>a<br>\nb</p>\n<hr>\n"},
        {"![x \"*y*\"](a.jpg)", "<p><img src=\"a.jpg\" alt=\"x &quot;y&quot;\"></p>\n"},
        {"[l](<a b\"é'>)", "<p><a href=\"a%20b%22%C3%A9&#39;\">l</a></p>\n"},
        {"[l](https://e.org/?a&b)", "<p><a href=\"https://e.org/?a&amp;b\">l</a></p>\n"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        assert_string_equal(html_of(a, rows[i].markdown), rows[i].html);
    arena_close(a);
}

static void
nothing_an_author_writes_is_script(void **state)
{
    (void)state;
    struct arena *a = arena_open(4096);
    static const struct {
        const char *markdown, *html;
    } rows[] = {
        {"<script>alert(1)</script>", ""},
        {"a <b onclick=x>c</b>", "<p>a c</p>\n"},
        {"[l](javascript:alert(1))", "<p>l</p>\n"},
        {"[l](JaVaScRiPt:alert(1))", "<p>l</p>\n"},
        {"[l](data:text/html,x)", "<p>l</p>\n"},
        {"![p](javascript:x)", "<p>p</p>\n"},
        {"![[l](https://e.org)](a.png)", "<p><img src=\"a.png\" alt=\"l\"></p>\n"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        assert_string_equal(html_of(a, rows[i].markdown), rows[i].html);
    arena_close(a);
}

/* a step made of the first item of a list, its runs as the reading lays them */
static const char *
step_of(struct arena *a, const char *markdown, const struct mark *marks, size_t count)
{
    cmark_node *doc = cmark_parse_document(markdown, strlen(markdown), CMARK_OPT_DEFAULT);
    struct step step = {.node = cmark_node_first_child(cmark_node_first_child(doc))};
    struct text plain = text_new(a), t = text_new(a);
    step.runs = arena_take_array(a, 32, sizeof *step.runs);
    cmark_iter *iter = cmark_iter_new(step.node);
    for (cmark_event_type e; (e = cmark_iter_next(iter)) != CMARK_EVENT_DONE;) {
        cmark_node *n = cmark_iter_get_node(iter);
        if (cmark_node_get_type(n) == CMARK_NODE_TEXT ||
            cmark_node_get_type(n) == CMARK_NODE_CODE) {
            step.runs[step.run_count++] = (struct step_run){n, plain.length};
            text_add_string(&plain, cmark_node_get_literal(n));
        } else if (cmark_node_get_type(n) == CMARK_NODE_SOFTBREAK) {
            text_add_byte(&plain, ' ');
        }
    }
    cmark_iter_free(iter);
    step.text = text_slice(&plain);
    markup_step(&t, &step, marks, count);
    cmark_node_free(doc);
    return t.bytes;
}

static void
marks_are_laid_over_the_text_of_a_step(void **state)
{
    (void)state;
    struct arena *a = arena_open(4096);
    const struct mark time = {4, 14, MARK_TIME, SLICE("PT10M")};
    assert_string_equal(step_of(a, "1. For 10 minutes.", &time, 1),
                        "For <time class=\"dl-time\" datetime=\"PT10M\">10\u00a0minutes</time>.");
    /* over a soft break, but not into emphasis */
    assert_string_equal(step_of(a, "1. For 10\n   minutes.", &time, 1),
                        "For <time class=\"dl-time\" datetime=\"PT10M\">10\u00a0minutes</time>.");
    assert_string_equal(step_of(a, "1. For 10 *minutes*.", &time, 1), "For 10 <em>minutes</em>.");
    /* in emphasis alone */
    assert_string_equal(
        step_of(a, "1. For *10 minutes*.", &time, 1),
        "For <em><time class=\"dl-time\" datetime=\"PT10M\">10\u00a0minutes</time></em>.");
    const struct mark two[] = {{0, 4, MARK_INGREDIENT, {NULL, 0}},
                               {8, 15, MARK_HEAT, SLICE("350 °F (180 °C)")}};
    assert_string_equal(step_of(a, "1. Rice at 180 °C.", two, 2),
                        "<span class=\"dl-named\">Rice</span> at <span class=\"dl-heat\">350 °F "
                        "(180 °C)</span>.");
    /* a second paragraph keeps its <p> */
    assert_string_equal(step_of(a, "1. Rice.\n\n   More & more.", two, 1),
                        "<p><span class=\"dl-named\">Rice</span>.</p>\n<p>More &amp; more.</p>\n");
    /* the heading of level 1 is the page's */
    assert_string_equal(step_of(a, "1. # Rice", NULL, 0), "<h2>Rice</h2>\n");
    assert_string_equal(step_of(a, "1. ### Rice", NULL, 0), "<h3>Rice</h3>\n");
    arena_close(a);
}

static void
forbidden_characters_are_left_out_of_html(void **state)
{
    (void)state;
    struct arena *a = arena_open(4096);
    struct text t = text_new(a);
    text_add_html(&t, SLICE("a\x01"
                            "b\x7f\xc2\x85"
                            "c\td\xc2\xa0<&"));
    assert_string_equal(t.bytes, "abc\td\xc2\xa0&lt;&amp;");
    struct text words = text_new(a);
    markup_words(&words, SLICE("plain"));
    markup_words(&words, SLICE("\xd7\xa9<"));
    assert_string_equal(words.bytes, "plain<bdi>\xd7\xa9&lt;</bdi>");
    arena_close(a);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(texts_read_back_as_they_were),
        cmocka_unit_test(broken_bytes_become_replacement_characters),
        cmocka_unit_test(members_stand_in_order_with_commas),
        cmocka_unit_test(blocks_are_written_as_the_standard_says),
        cmocka_unit_test(nothing_an_author_writes_is_script),
        cmocka_unit_test(marks_are_laid_over_the_text_of_a_step),
        cmocka_unit_test(forbidden_characters_are_left_out_of_html),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
