#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "read/yaml_source.h"
#include "read/yaml_tree.h"
#include "read/yaml_value.h"

struct read_yaml {
    struct arena *arena;
    struct notices notices;
    const struct yaml_node *root;
};

static struct read_yaml
read_at(struct slice bytes, uint32_t first_line)
{
    struct read_yaml r = {.arena = arena_open(4096)};
    r.notices.arena = r.arena;
    r.root = yaml_tree_read(r.arena, bytes, first_line, &r.notices);
    return r;
}

static struct read_yaml
read_text(const char *text)
{
    return read_at(slice_of(text), 1);
}

static void
expect_notice(const char *text, enum rule rule, uint32_t line, uint32_t column)
{
    struct read_yaml r = read_text(text);
    assert_int_equal(r.notices.count, 1);
    assert_int_equal(r.notices.items[0].rule, rule);
    assert_int_equal(r.notices.items[0].place.line, line);
    assert_int_equal(r.notices.items[0].place.column, column);
    arena_close(r.arena);
}

static void
expect_place(struct place p, uint32_t line, uint32_t column, uint32_t length)
{
    assert_int_equal(p.line, line);
    assert_int_equal(p.column, column);
    assert_int_equal(p.length, length);
}

static void
builds_a_tree(void **state)
{
    (void)state;
    struct read_yaml r = read_at(SLICE("title: Soup\nparts:\n  - a\n  - {b: 1}\n"), 2);
    assert_int_equal(r.notices.count, 0);
    assert_int_equal(r.root->kind, YAML_MAP_NODE);
    assert_int_equal(r.root->count, 2);
    assert_true(slice_is(yaml_get(r.root, "title")->text, "Soup"));
    expect_place(yaml_get(r.root, "title")->place, 2, 8, 4);
    expect_place(yaml_key(r.root, 1)->place, 3, 1, 5);
    const struct yaml_node *list = yaml_value(r.root, 1);
    assert_int_equal(list->kind, YAML_LIST_NODE);
    assert_int_equal(list->count, 2);
    expect_place(list->items[1]->place, 5, 5, 0);
    assert_null(yaml_get(r.root, "none"));
    assert_null(yaml_get(list, "none"));
    assert_null(yaml_get(NULL, "none"));
    arena_close(r.arena);

    r = read_text("# only a comment\n");
    assert_int_equal(r.root->kind, YAML_MAP_NODE);
    assert_int_equal(r.root->count, 0);
    arena_close(r.arena);
}

static void
knows_places_within(void **state)
{
    static const struct {
        const char *yaml, *words;
        uint32_t line, column, length;
    } rows[] = {
        {"a: crème brûlée", "brûlée", 1, 10, 6},
        {"é: 'it''s so'", "so", 1, 11, 2},
        {"a: \"x\\u00e9\\ty z\"", "y", 1, 14, 1},
        {"a: \"x\\ty z\"", "z", 1, 10, 1},
        {"a: one\n   two\n\n   three", "two", 2, 4, 3},
        {"a: one\n   two\n\n   three", "three", 4, 4, 5},
        {"a: |\n  one\n  two three\n", "three", 3, 7, 5},
        {"a: >\n  one\n  two\n", "two", 3, 3, 3},
        {"a: |\n  one\n", "one", 2, 3, 3},
        {"a: &x !!str one two", "two", 1, 17, 3},
        {"a: 'one\n  two'", "two", 2, 3, 3},
        {"a: 'one two'", "two", 1, 9, 3},
        {"a: \"brûlée two\"", "two", 1, 12, 3},
        {"a: \"one\\\n  two\"", "two", 2, 3, 3},
    };
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct read_yaml r = read_text(rows[i].yaml);
        assert_non_null(r.root);
        const struct yaml_node *value = yaml_value(r.root, 0);
        size_t at = slice_find(value->text, rows[i].words, 0);
        assert_int_not_equal(at, SIZE_MAX);
        struct place p = yaml_place_in(value, at, at + strlen(rows[i].words));
        if (p.line != rows[i].line || p.column != rows[i].column || p.length != rows[i].length)
            fail_msg("%s: %s at %u:%u+%u", rows[i].yaml, rows[i].words, p.line, p.column, p.length);
        arena_close(r.arena);
    }
}

static void
tells_what_is_broken(void **state)
{
    (void)state;
    expect_notice("a: 1\na: 2\n", RULE_KEY_TWICE, 2, 1);
    expect_notice("a: [1\nb: 2\n", RULE_YAML_BROKEN, 2, 2);
    expect_notice("a: 1\n\tb: 2\n", RULE_YAML_BROKEN, 2, 1);
    expect_notice("a: *nobody\n", RULE_YAML_BROKEN, 1, 4);
    expect_notice("a: &b [*b]\n", RULE_YAML_BROKEN, 1, 8);
    expect_notice("? [a]\n: b\n", RULE_YAML_BROKEN, 1, 3);
    expect_notice("a: b\n---\nc: d\n", RULE_YAML_BROKEN, 2, 1);
    expect_notice("a: b\nc: é\x01\n", RULE_YAML_BROKEN, 2, 5);
    expect_notice("a: \"x\\u202ey\"\n", RULE_CHARACTER_HIDDEN, 1, 5);
}

static void
keeps_the_first_of_two_keys(void **state)
{
    (void)state;
    struct read_yaml r = read_text("{a: 1, b: 2, a: 3}");
    assert_int_equal(r.root->count, 2);
    assert_true(slice_is(yaml_get(r.root, "a")->text, "1"));
    arena_close(r.arena);
    /* many keys are told apart another way */
    struct arena *a = arena_open(4096);
    struct text t = text_new(a);
    for (int i = 0; i < 40; i++)
        text_addf(&t, "k%d: %d\n", i, i);
    text_add_string(&t, "k7: again\n");
    r = read_at(text_slice(&t), 1);
    assert_int_equal(r.root->count, 40);
    assert_int_equal(r.notices.count, 1);
    expect_place(r.notices.items[0].place, 41, 1, 2);
    arena_close(r.arena);
    arena_close(a);
}

static void
takes_hidden_characters_out(void **state)
{
    (void)state;
    struct read_yaml r = read_text("a: \"x\\u202ey\\u200bz\"\nb: p\xe2\x80\x8bq r");
    assert_true(slice_is(yaml_get(r.root, "a")->text, "xyz"));
    const struct yaml_node *b = yaml_get(r.root, "b");
    assert_true(slice_is(b->text, "pq r"));
    arena_close(r.arena);
}

static void
bounds_depth_and_size(void **state)
{
    (void)state;
    struct arena *a = arena_open(1 << 16);
    struct text t = text_new(a);
    for (int i = 0; i < 10000; i++)
        text_add_byte(&t, '[');
    struct read_yaml r = read_at(text_slice(&t), 1);
    assert_null(r.root);
    assert_int_equal(r.notices.items[0].rule, RULE_YAML_TOO_DEEP);
    expect_place(r.notices.items[0].place, 1, 65, 0);
    arena_close(r.arena);

    t.length = 0;
    for (int i = 0; i < 10000; i++)
        text_addf(&t, "%*s- \n", i % 2 ? i : i, "");
    r = read_at(slice_part(text_slice(&t), 0, 1000000), 1);
    assert_null(r.root);
    arena_close(r.arena);

    t.length = 0;
    text_add_string(&t, "a0: &a0 [x,x,x,x,x,x,x,x,x]\n");
    for (int i = 1; i < 10; i++) {
        text_addf(&t, "a%d: &a%d [", i, i);
        for (int j = 0; j < 9; j++)
            text_addf(&t, "%s*a%d", j > 0 ? "," : "", i - 1);
        text_add_string(&t, "]\n");
    }
    r = read_at(text_slice(&t), 1);
    assert_null(r.root);
    assert_int_equal(r.notices.items[0].rule, RULE_YAML_TOO_MANY_ALIASES);
    assert_true(arena_size(r.arena) < 4 << 20);
    arena_close(r.arena);

    t.length = 0;
    text_add_string(&t, "a0: &a0 [x]\n");
    for (int i = 1; i < 80; i++)
        text_addf(&t, "a%d: &a%d [*a%d]\n", i, i, i - 1);
    r = read_at(text_slice(&t), 1);
    assert_null(r.root);
    assert_int_equal(r.notices.items[0].rule, RULE_YAML_TOO_DEEP);
    arena_close(r.arena);

    t.length = 0;
    for (int i = 0; i < YAML_NODES_MOST; i++)
        text_add_string(&t, "- x\n");
    r = read_at(text_slice(&t), 1);
    assert_null(r.root);
    assert_int_equal(r.notices.items[0].rule, RULE_YAML_BROKEN);
    arena_close(r.arena);
    arena_close(a);
}

static void
follows_aliases(void **state)
{
    (void)state;
    struct read_yaml r = read_text("a: &x [1, 2]\nb: *x\n");
    assert_ptr_equal(yaml_get(r.root, "a"), yaml_get(r.root, "b"));
    arena_close(r.arena);
}

static void
reads_numbers(void **state)
{
    static const struct {
        const char *yaml;
        bool good;
        double number;
    } rows[] = {
        {"[1]", true, 1},
        {"[-1.5]", true, -1.5},
        {"[.5]", true, 0.5},
        {"[1e3]", true, 1000},
        {"[1.5E-2]", true, 0.015},
        {"[0.1]", true, 0.1},
        {"[28.349523125]", true, 28.349523125},
        {"[+7]", true, 7},
        {"[0.30000000000000004]", true, 0.30000000000000004},
        {"[007]", true, 7},
        {"['1']", false, 0},
        {"[1a]", false, 0},
        {"['']", false, 0},
        {"[.]", false, 0},
        {"[1e]", false, 0},
        {"[.inf]", false, 0},
        {"[1e999]", false, 0},
        {"[1_000]", false, 0},
        {"[[1]]", false, 0},
        {"[0x10]", false, 0},
        {"[\"1,5\"]", false, 0},
        {"[1 2]", false, 0},
    };
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct read_yaml r = read_text(rows[i].yaml);
        double number = 0;
        bool good = yaml_number(r.root->items[0], &number);
        if (good != rows[i].good || (good && number != rows[i].number))
            fail_msg("%s read as %d %.17g", rows[i].yaml, good, number);
        arena_close(r.arena);
    }
    double number;
    assert_false(yaml_number(NULL, &number));
}

static void
reads_truth(void **state)
{
    (void)state;
    struct read_yaml r = read_text("[yes, No, TRUE, off, 'yes', y, 1]");
    bool truth = false;
    assert_true(yaml_truth(r.root->items[0], &truth) && truth);
    assert_true(yaml_truth(r.root->items[1], &truth) && !truth);
    assert_true(yaml_truth(r.root->items[2], &truth) && truth);
    assert_true(yaml_truth(r.root->items[3], &truth) && !truth);
    for (size_t i = 4; i < 7; i++)
        assert_false(yaml_truth(r.root->items[i], &truth));
    arena_close(r.arena);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(builds_a_tree),
        cmocka_unit_test(knows_places_within),
        cmocka_unit_test(tells_what_is_broken),
        cmocka_unit_test(keeps_the_first_of_two_keys),
        cmocka_unit_test(takes_hidden_characters_out),
        cmocka_unit_test(bounds_depth_and_size),
        cmocka_unit_test(follows_aliases),
        cmocka_unit_test(reads_numbers),
        cmocka_unit_test(reads_truth),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
