#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "read/yaml_events.h"
#include "read/yaml_plain.h"

static const char *const plain_documents[] = {
    "title: Soup\n",
    "title:   Soup, hot  # not cold\nportions: 4",
    "a:\nb: \nc: # nothing\nd: x",
    "a:\n  b:\n    c: 1\n  d: 2\ne: 3\n",
    "list:\n  - a\n  - b: 1\n    c: 2\n  -\n  - - x\n    - y\n",
    "beside:\n- a\n- b: 1\n  c:\n  - 3\nafter: 1\n",
    "- 1\n-\n  x: 1\n\n# between\n- 2\n",
    "flow: {a: 1, b: [x, y z, \"q\", 'r'], c: {}, d: []}\nnext: 1\n",
    "flow: [a,\n  b,  # and\nc]\n\nmap: {a: 1,\n      b: two\n  words}\n",
    "folded: one\n  two\n\n\n  three - four\nnext: 1\n",
    "- 1 cup rice\n  - 2 eggs\n- salt\n",
    "quoted: \"a\n  b\n\n  c \"\nother: 'it''s\n  so'\n",
    "escaped: \"4\\\" by 6\\\" and \\\\\"\n",
    "\"key\": 'v'\n'other key': w\n",
    "½ cup: ¼ “of” it # ½\nä: {ö: ü, “ß”: [é, à]}\n",
    "url: https://a.b/c?d=e#f\nflow: {url: http://a.b/c, x: -1}\n",
    "x: -1\ny: -a\nz: a #b\nw: a#b\nv: a:b\n",
    "  indented: 1\n  so: 2\n",
    "{a: 1}\n",
    "[]",
    "a: \"\"\nb: ''\n",
};

enum { PLAIN_DOCUMENTS = sizeof plain_documents / sizeof *plain_documents };

static bool
same_place(struct place a, struct place b)
{
    return a.line == b.line && a.column == b.column && a.length == b.length;
}

static bool
same_tree(const struct yaml_node *a, const struct yaml_node *b)
{
    size_t count = a->kind == YAML_MAP_NODE ? 2 * a->count : a->count;
    if (a->kind != b->kind || a->count != b->count || a->quoted != b->quoted ||
        !same_place(a->place, b->place) || !slice_equal(a->text, b->text) ||
        a->source.length != b->source.length || a->source.at != b->source.at)
        return false;
    for (size_t i = 0; i < count; i++)
        if (!same_tree(a->items[i], b->items[i]))
            return false;
    return true;
}

enum way { WAY_PLAIN, WAY_OTHER, WAY_WRONG };

/* whether a document is plain, and then whether libyaml reads the same */
static enum way
way_of(struct slice bytes)
{
    struct arena *a = arena_open(4096);
    struct notices notices = {.arena = a};
    enum way way = WAY_OTHER;
    if (setjmp(*arena_guard(a)) != 0)
        abort();
    const struct yaml_node *plain = yaml_plain_read(a, bytes, 2);
    if (plain != NULL) {
        const struct yaml_node *whole = yaml_events_read(a, bytes, 2, &notices);
        bool same = whole != NULL && notices.count == 0 && same_tree(plain, whole);
        way = same ? WAY_PLAIN : WAY_WRONG;
    }
    arena_close(a);
    if (way == WAY_WRONG)
        fprintf(stderr, "read otherwise than by libyaml:\n%.*s\n", SLICE_ARGS(bytes));
    return way;
}

static void
expect_way(const char *document, enum way expected)
{
    enum way way = way_of(slice_of(document));
    if (way != expected)
        fprintf(stderr, "%s:\n%s\n", way == WAY_PLAIN ? "plain" : "not plain", document);
    assert_int_equal(way, expected);
}

static void
reads_what_is_plain_as_libyaml_does(void **state)
{
    (void)state;
    for (size_t i = 0; i < PLAIN_DOCUMENTS; i++)
        expect_way(plain_documents[i], WAY_PLAIN);
}

static void
leaves_to_libyaml_what_is_not_plain(void **state)
{
    (void)state;
    static const char *const documents[] = {
        "",
        "# nothing\n",
        "word\n",
        "a: 1\na: 2\n",
        "a: b: c\n",
        "a: - b\n",
        "a:\tb\n",
        "a: 1\r\n",
        "a: |\n  b\n",
        "a: &x 1\nb: *x\n",
        "a: !!str 1\n",
        "? a\n: b\n",
        "a: \"\\n\"\n",
        "a: \"b\n",
        "a: [b\n",
        "a: [b,]\n",
        "a: {b}\n",
        "a: {b: }\n",
        "a: {b:c}\n",
        "a: 1\n  b: 2\n",
        "a:\n  b: 1\n c: 2\n",
        "- a\nb: 1\n",
        "a: 1\n---\nb: 2\n",
        "a: 1\n...\n",
        "a: \"x\"y\n",
        "a: 'x' # y\n  z\n",
        "a: \xff\n",
        "a: \xe2\x80\x8b\n",
        "a: %b\n",
        "a: @b\n",
        "a\n",
    };
    for (size_t i = 0; i < sizeof documents / sizeof *documents; i++)
        expect_way(documents[i], WAY_OTHER);
}

static void
bounds_depth(void **state)
{
    (void)state;
    char deep[2 * YAML_DEPTH_MOST + 2] = "";
    memset(deep, '[', YAML_DEPTH_MOST);
    memset(deep + YAML_DEPTH_MOST, ']', YAML_DEPTH_MOST);
    assert_int_equal(way_of(slice_of(deep)), WAY_PLAIN);
    memset(deep, '[', YAML_DEPTH_MOST + 1);
    memset(deep + YAML_DEPTH_MOST + 1, ']', YAML_DEPTH_MOST + 1);
    deep[2 * YAML_DEPTH_MOST + 1] = '\0';
    assert_int_equal(way_of(slice_of(deep)), WAY_OTHER);
}

/* numbers that look like chance, the same each time */
static uint32_t
chance(uint64_t *state, uint32_t below)
{
    *state = *state * UINT64_C(6364136223846793005) + UINT64_C(1442695040888963407);
    return (uint32_t)(*state >> 33) % below;
}

/* pieces that YAML gives a meaning */
static const char *const pieces[] = {
    "a",    "b c",    "a: ",   "b: ",    "c:",      "- ",     "-",      "\n", "\n",   "\n  ",
    "\n",   "\n    ", " ",     ", ",     "[",       "]",      "{",      "}",  "\"",   "'",
    " #",   "#",      ":",     "½",      "“x” ",    "\"q\"",  "'r'",    "\\", "\\\"", "1",
    "\n- ", "''",     "\nb: ", "\n  - ", "\n  c: ", "[x, y]", "{d: 1}", "?",  "\n\n", "  ",
};

static struct slice
piece(uint64_t *state)
{
    return slice_of(pieces[chance(state, (uint32_t)(sizeof pieces / sizeof *pieces))]);
}

/* a document of pieces alone, most often wrong, or a sound one with some put in, cut or moved */
static struct slice
made_up(uint64_t *state, char *bytes, size_t room)
{
    size_t length = 0;
    if (chance(state, 4) > 0) {
        struct slice sound = slice_of(plain_documents[chance(state, PLAIN_DOCUMENTS)]);
        memcpy(bytes, sound.at, sound.length);
        length = sound.length;
    }
    const uint32_t edits = length == 0 ? 1 + chance(state, 14) : chance(state, 5);
    for (uint32_t n = 0; n < edits; n++) {
        struct slice more = piece(state);
        size_t at = chance(state, (uint32_t)length + 1), cut = chance(state, 4);
        if (cut > length - at || (length > 0 && chance(state, 3) > 0))
            cut = 0;
        if (chance(state, 4) == 0)
            more.length = 0;
        if (length + more.length > room)
            break;
        memmove(bytes + at + more.length, bytes + at + cut, length - at - cut);
        memcpy(bytes + at, more.at, more.length);
        length = length - cut + more.length;
    }
    return (struct slice){bytes, length};
}

static void
agrees_with_libyaml_on_what_is_made_up(void **state)
{
    (void)state;
    const char *more = getenv("YAML_PLAIN_DOCUMENTS"), *seed = getenv("YAML_PLAIN_SEED");
    const long documents = more != NULL ? atol(more) : 20000;
    uint64_t numbers = seed != NULL ? strtoull(seed, NULL, 10) : 7;
    long plain = 0, wrong = 0;
    char bytes[512];
    for (long i = 0; i < documents; i++) {
        enum way way = way_of(made_up(&numbers, bytes, sizeof bytes));
        plain += way == WAY_PLAIN;
        wrong += way == WAY_WRONG;
    }
    assert_int_equal(wrong, 0);
    assert_true(plain > documents / 10);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(reads_what_is_plain_as_libyaml_does),
        cmocka_unit_test(leaves_to_libyaml_what_is_not_plain),
        cmocka_unit_test(bounds_depth),
        cmocka_unit_test(agrees_with_libyaml_on_what_is_made_up),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
