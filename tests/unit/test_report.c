/* Findings as text, JSON and SARIF. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>
#include <jansson.h>

#include "write/report.h"
#include "write/sarif.h"

static const struct report_manner lines = {false, true};

static struct findings
one_finding(struct finding *f)
{
    f->level = LEVEL_WARNING;
    return (struct findings){.items = f, .count = 1};
}

/* the report of one finding of 2 characters at line 2 and the column given */
static const char *
caret(struct arena *a, const char *line, uint32_t column, uint32_t length)
{
    struct finding f = {.rule = RULE_UNIT_UNKNOWN, .path = "posts/a.md", .message = SLICE("m")};
    struct text source = text_new(a), t = text_new(a);
    f.place = (struct place){2, column, length};
    struct findings all = one_finding(&f);
    text_addf(&source, "first\n%s\nthird\n", line);
    report_text(&t, &all, text_slice(&source), &lines);
    return strchr(t.bytes, '\n') + 1;
}

static void
the_caret_stands_under_the_words(void **state)
{
    (void)state;
    struct arena *a = arena_open(4096);
    assert_string_equal(caret(a, "- 2 tbps oil", 5, 4), "    - 2 tbps oil\n        ^^^^\n");
    /* a tab is shown as one column */
    assert_string_equal(caret(a, "\t2 tbps", 4, 4), "     2 tbps\n       ^^^^\n");
    /* an accent put on by combining takes no column, a wide character two */
    assert_string_equal(caret(a, "cre\xcc\x80me 2 tb", 8, 4),
                        "    cre\xcc\x80me 2 tb\n          ^^^^\n");
    assert_string_equal(caret(a, "日本 tb", 4, 2), "    日本 tb\n         ^^\n");
    assert_string_equal(caret(a, "日本 tb", 1, 2), "    日本 tb\n    ^^^^\n");
    /* nothing that turns the line around reaches the terminal */
    assert_string_equal(caret(a, "a\x1b[2J\xe2\x80\xae b", 8, 1),
                        "    a\xef\xbf\xbd[2J\xef\xbf\xbd b\n           ^\n");
    /* a place without a column shows no line, one without a length a single caret */
    assert_string_equal(caret(a, "ab", 0, 0), "");
    assert_string_equal(caret(a, "ab", 2, 0), "    ab\n     ^\n");
    arena_close(a);
}

static void
long_lines_are_cut_around_the_words(void **state)
{
    (void)state;
    struct arena *a = arena_open(4096);
    struct text line = text_new(a);
    for (int i = 0; i < 100; i++)
        text_add_string(&line, "abcdefghi ");
    const char *shown = caret(a, line.bytes, 501, 9);
    const char *under = strchr(shown, '\n') + 1;
    assert_true(strlen(shown) < 400);
    assert_true(strncmp(shown + 4, "\xe2\x80\xa6 ", 4) == 0);
    /* the ellipsis takes three bytes and one column */
    assert_true(strncmp(shown + strspn(under, " ") + 2, "abcdefghi ", 9) == 0);
    arena_close(a);
}

static void
a_finding_reads_like_a_compilers(void **state)
{
    (void)state;
    struct arena *a = arena_open(4096);
    struct finding f = {.rule = RULE_UNIT_UNKNOWN,
                        .path = "posts/a.md",
                        .place = {2, 5, 4},
                        .message = SLICE("there is no unit \xe2\x80\x9ctbps\xe2\x80\x9d"),
                        .mend = SLICE("Write tbsp.")};
    struct findings all = one_finding(&f);
    struct text t = text_new(a), answered = text_new(a);
    report_text(&t, &all, SLICE("a\n- 2 tbps\n"), &(struct report_manner){true, false});
    assert_string_equal(t.bytes, "posts/a.md:2:5: \x1b[1mwarning\x1b[0m: there is no unit "
                                 "\xe2\x80\x9ctbps\xe2\x80\x9d [unit-unknown]\n    Write tbsp.\n");
    f.answered = true;
    f.reason = SLICE("my own word");
    report_text(&answered, &all, SLICE(""), &lines);
    assert_non_null(strstr(answered.bytes, "    answered in the post: my own word\n"));
    assert_null(strstr(answered.bytes, "Write tbsp."));
    arena_close(a);
}

static bool
collect(void *ctx, struct slice bytes)
{
    text_add(ctx, bytes);
    return true;
}

static struct slice
give(void *ctx, size_t i, enum piece_of_record piece)
{
    assert_int_equal(piece, RECORD_SARIF);
    return ((struct slice *)ctx)[i];
}

static json_t *
sarif_of(struct arena *a, struct slice *pieces, size_t count)
{
    struct text t = text_new(a);
    struct gathering g = {.count = count, .piece = give, .ctx = pieces};
    assert_true(sarif_write(a, &g, (struct outlet){collect, &t}));
    json_t *log = json_loadb(t.bytes, t.length, JSON_REJECT_DUPLICATES, NULL);
    assert_non_null(log);
    return log;
}

static void
sarif_places_and_suppresses(void **state)
{
    (void)state;
    struct arena *a = arena_open(4096);
    struct finding items[] = {
        {.rule = RULE_UNIT_UNKNOWN,
         .level = LEVEL_ERROR,
         .path = "posts/my soup é.md",
         .place = {2, 5, 4},
         .message = SLICE("m"),
         .mend = SLICE("Mend.")},
        {.rule = RULE_FILE_EMPTY,
         .level = LEVEL_NOTE,
         .path = "posts/my soup é.md",
         .message = SLICE("n"),
         .answered = true,
         .reason = SLICE("known")},
    };
    struct findings all = {.items = items, .count = 2};
    struct slice pieces[] = {sarif_results(a, &all), SLICE(""), sarif_results(a, &all)};
    json_t *log = sarif_of(a, pieces, 3), *run, *result;
    run = json_array_get(json_object_get(log, "runs"), 0);
    json_t *results = json_object_get(run, "results");
    assert_int_equal(json_array_size(results), 4);
    const char *uri, *id, *text, *kind, *why;
    int line, column, end, index;
    result = json_array_get(results, 2);
    assert_int_equal(
        json_unpack(result, "{s:s, s:i, s:{s:s}, s:[{s:{s:{s:s}, s:{s:i, s:i, s:i}}}]}", "ruleId",
                    &id, "ruleIndex", &index, "message", "text", &text, "locations",
                    "physicalLocation", "artifactLocation", "uri", &uri, "region", "startLine",
                    &line, "startColumn", &column, "endColumn", &end),
        0);
    assert_string_equal(uri, "posts/my%20soup%20%C3%A9.md");
    assert_string_equal(text, "m. Mend.");
    assert_int_equal(line * 100 + column * 10 + end, 2 * 100 + 5 * 10 + 9);
    json_t *rules =
        json_object_get(json_object_get(json_object_get(run, "tool"), "driver"), "rules");
    assert_int_equal(json_array_size(rules), RULES);
    assert_string_equal(
        json_string_value(json_object_get(json_array_get(rules, (size_t)index), "id")), id);
    result = json_array_get(results, 1);
    assert_int_equal(json_unpack(result, "{s:[{s:s, s:s}]}", "suppressions", "kind", &kind,
                                 "justification", &why),
                     0);
    assert_string_equal(kind, "inSource");
    assert_string_equal(why, "known");
    json_decref(log);
    log = sarif_of(a, pieces, 0);
    json_decref(log);
    arena_close(a);
}

static void
findings_as_json_hold_every_field(void **state)
{
    (void)state;
    struct arena *a = arena_open(4096);
    struct finding items[] = {
        {.rule = RULE_UNIT_UNKNOWN,
         .level = LEVEL_ERROR,
         .path = "a.md",
         .place = {2, 5, 4},
         .message = SLICE("m")},
        {.rule = RULE_FILE_EMPTY, .level = LEVEL_NOTE, .path = "a.md", .message = SLICE("n")},
    };
    struct findings all = {.items = items, .count = 2}, none = {0};
    struct text t = text_new(a), empty = text_new(a);
    report_json(&t, &all);
    json_t *read = json_loadb(t.bytes, t.length, 0, NULL);
    assert_int_equal(json_array_size(read), 2);
    const char *file, *level, *rule, *message;
    int line, column, length, answered;
    assert_int_equal(json_unpack(json_array_get(read, 0),
                                 "{s:s, s:i, s:i, s:i, s:s, s:s, s:s, s:b !}", "file", &file,
                                 "line", &line, "column", &column, "length", &length, "level",
                                 &level, "rule", &rule, "message", &message, "answered", &answered),
                     0);
    assert_string_equal(level, "error");
    assert_false(answered);
    json_decref(read);
    report_json(&empty, &none);
    assert_string_equal(empty.bytes, "[]\n");
    arena_close(a);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_caret_stands_under_the_words),
        cmocka_unit_test(long_lines_are_cut_around_the_words),
        cmocka_unit_test(a_finding_reads_like_a_compilers),
        cmocka_unit_test(sarif_places_and_suppresses),
        cmocka_unit_test(findings_as_json_hold_every_field),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
