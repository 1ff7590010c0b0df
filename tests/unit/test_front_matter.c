#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "english.h"
#include "judge/rules.h"
#include "read/front_matter.h"
#include "read/iso_date.h"
#include "read/yaml_tree.h"

#define WHOLE "title: Soup\nportions: 2\ningredients: [salt]\n"

struct read_front {
    struct arena *arena;
    struct notices notices;
    struct front_matter front;
};

static struct read_front
read_front(const char *yaml)
{
    struct read_front r = {.arena = arena_open(4096)};
    r.notices.arena = r.arena;
    const struct yaml_node *map = yaml_tree_read(r.arena, slice_of(yaml), 2, &r.notices);
    assert_non_null(map);
    front_matter_read(r.arena, english(), map, &r.notices, &r.front);
    return r;
}

static void
reads_all_keys(void **state)
{
    (void)state;
    struct read_front r = read_front(
        "title: Polenta fingers\nsummary: Crisp\nauthor: N. N.\nslug: fingers\nlanguage: en\n"
        "category: Snack\ncuisine: Italian\nstorage: 3 days\npublished: 2026-03-14\n"
        "updated: 2026-03-15T09:30:00+13:00\nmeasures: au\nyield: 24 fingers\nportion: 4 fingers\n"
        "ingredients:\n  The fingers:\n    - 1 cup polenta\n    - {food: water}\n"
        "  The relish:\n    - 3 tomatoes\n"
        "times: {prep: 15 min, cook: 40 min, rest: 1 h, total: PT2H}\n"
        "claims: [vegan, low-lactose]\nkeywords: polenta, snack ,\nequipment: [tin]\n"
        "image: {file: p.jpg, alt: A plate, credit: N, width: 1200, height: 800}\n"
        "video: {url: https://example.org/v, name: V, description: D, thumbnail: t.jpg, uploaded: "
        "2026-03-14}\n"
        "answers: {food-untested: seen}\ndraft: yes\n");
    const struct front_matter *f = &r.front;
    assert_int_equal(r.notices.count, 0);
    assert_true(slice_is(f->title.text, "Polenta fingers"));
    assert_int_equal(f->title.place.line, 2);
    assert_int_equal(f->title.place.column, 8);
    assert_true(slice_is(f->updated.text, "2026-03-15T09:30:00+13:00"));
    assert_int_equal(f->part_count, 2);
    assert_true(slice_is(f->parts[1].name.text, "The relish"));
    assert_int_equal(f->parts[0].count, 2);
    assert_true(f->rest.given && f->rest.seconds.mid == 3600);
    assert_true(f->total.given && f->total.seconds.mid == 7200);
    assert_int_equal(f->keywords.count, 2);
    assert_true(slice_is(f->keywords.items[1].text, "snack"));
    assert_int_equal(f->keywords.items[1].place.column, 20);
    assert_true(f->image_width == 1200 && f->image_height == 800);
    assert_true(slice_is(f->video_uploaded.text, "2026-03-14"));
    assert_int_equal(f->answer_count, 1);
    assert_true(slice_is(f->answers[0].reason.text, "seen"));
    assert_true(f->draft);
    arena_close(r.arena);
}

/* one wrong thing each */
static void
tells_what_is_wrong(void **state)
{
    static const struct {
        const char *yaml;
        enum rule rule;
        uint32_t line, column;
        const char *what, *more;
    } rows[] = {
        {WHOLE "sumary: x\n", RULE_KEY_UNKNOWN, 5, 1, "sumary", "; did you mean “summary”?"},
        {WHOLE "servings: 4\n", RULE_KEY_UNKNOWN, 5, 1, "servings", "; did you mean “serves”?"},
        {WHOLE "zzz: 4\n", RULE_KEY_UNKNOWN, 5, 1, "zzz", ""},
        {WHOLE "times: {prp: 1 h}\n", RULE_KEY_UNKNOWN, 5, 9, "prp", "; did you mean “prep”?"},
        {WHOLE "image: {fil: x}\n", RULE_KEY_UNKNOWN, 5, 9, "fil", "; did you mean “file”?"},
        {WHOLE "title: Stew\n", RULE_KEY_TWICE, 5, 1, "title", ""},
        {WHOLE "serves: 4\n", RULE_KEY_TWICE, 5, 1, "serves", ""},
        {WHOLE "summary: [x]\n", RULE_VALUE_WRONG_TYPE, 5, 10, "summary", "a text"},
        {WHOLE "claims: {a: b}\n", RULE_VALUE_WRONG_TYPE, 5, 9, "claims", "a list of texts"},
        {WHOLE "times: 15 min\n", RULE_VALUE_WRONG_TYPE, 5, 8, "times", NULL},
        {WHOLE "draft: perhaps\n", RULE_VALUE_WRONG_TYPE, 5, 8, "draft", "yes or no"},
        {WHOLE "answers: {trace: }\n", RULE_VALUE_WRONG_TYPE, 5, 18, "trace", NULL},
        {WHOLE "image: {alt: x}\n", RULE_VALUE_WRONG_TYPE, 5, 8, "image", NULL},
        {WHOLE "image: {file: a, width: wide}\n", RULE_VALUE_WRONG_TYPE, 5, 25, "width", NULL},
        {WHOLE "published: 14/03/2026\n", RULE_VALUE_UNREADABLE, 5, 12, "14/03/2026", NULL},
        {WHOLE "times: {prep: a while}\n", RULE_VALUE_UNREADABLE, 5, 15, "a while", NULL},
        {WHOLE "times: {prep: 15}\n", RULE_VALUE_UNREADABLE, 5, 15, "15", NULL},
        {WHOLE "image: 'javascript:x'\n", RULE_VALUE_UNREADABLE, 5, 9, "javascript:x", NULL},
        {WHOLE "video: {url: 'data:x'}\n", RULE_VALUE_UNREADABLE, 5, 15, "data:x", NULL},
        {"title: a\nportions: many\ningredients: [x]\n", RULE_VALUE_UNREADABLE, 3, 11, "many",
         NULL},
        {"title: a\nportions: 0\ningredients: [x]\n", RULE_VALUE_UNREADABLE, 3, 11, "0", NULL},
        {"title: \nportions: 2\ningredients: [x]\n", RULE_TITLE_MISSING, 1, 0, "", ""},
        {"title: a\ningredients: [x]\n", RULE_YIELD_MISSING, 1, 0, "", ""},
        {"title: a\nportions: 2\n", RULE_INGREDIENTS_MISSING, 1, 0, "", ""},
        {"title: a\nportions: 2\ningredients: []\n", RULE_INGREDIENTS_MISSING, 1, 0, "", ""},
        {"title: a\nportions: 2\ningredients: [x, [y]]\n", RULE_VALUE_WRONG_TYPE, 4, 18, NULL,
         NULL},
        {"title: a\nportions: 2\ningredients: {P: [x], Q: y}\n", RULE_VALUE_WRONG_TYPE, 4, 26, "Q",
         NULL},
        {"title: a\nportions: 2\ningredients: [x, '']\n", RULE_LINE_UNREADABLE, 4, 19, NULL, NULL},
    };
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct read_front r = read_front(rows[i].yaml);
        const struct notice *n = r.notices.items;
        if (r.notices.count != 1 || n->rule != rows[i].rule || n->place.line != rows[i].line ||
            n->place.column != rows[i].column ||
            (rows[i].what != NULL && !slice_is(n->what, rows[i].what)) ||
            (rows[i].more != NULL && !slice_is(n->more, rows[i].more)))
            fail_msg("%s: %zu notices, %s at %u:%u, %.*s, %.*s", rows[i].yaml, r.notices.count,
                     r.notices.count ? rules_row(n->rule)->id : "", n->place.line, n->place.column,
                     SLICE_ARGS(n->what), SLICE_ARGS(n->more));
        arena_close(r.arena);
    }
}

static void
reads_portions(void **state)
{
    static const char *const rows[][2] = {
        {"6", "6"},   {"4-6", "4-6"},      {"4 to 6 people", "4 to 6"},
        {"'8'", "8"}, {"2 portions", "2"}, {"4 as a main, 6 as a side", "4"}};
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        char yaml[100];
        snprintf(yaml, sizeof yaml, "title: a\nserves: %s\ningredients: [x]\n", rows[i][0]);
        struct read_front r = read_front(yaml);
        assert_int_equal(r.notices.count, 0);
        assert_true(slice_is(r.front.portions.text, rows[i][1]));
        arena_close(r.arena);
    }
}

static void
checks_dates(void **state)
{
    static const char *const good[] = {
        "2026-03-14",           "2024-02-29",        "2000-02-29",
        "2026-12-31T23:59:59Z", "2026-03-14T09:30Z", "2026-03-14T09:30:00.25-05:00",
        "0001-01-01",
    };
    static const char *const bad[] = {
        "2026-02-29",
        "1900-02-29",
        "2026-13-01",
        "2026-00-10",
        "2026-04-31",
        "2026-3-14",
        "20260314",
        "2026-03-14T",
        "2026-03-14T09:30",
        "2026-03-14T24:00Z",
        "2026-12-31T23:59:60Z",
        "2026-03-14 09:30:00Z",
        "2026-03-14T09:30:00.Z",
        "2026-03-14T09:30+24:00",
        "2026-03-14T09:30+0100",
        "2026-03-14x",
        "",
        "0000-01-01",
    };
    (void)state;
    for (size_t i = 0; i < sizeof good / sizeof *good; i++)
        if (!iso_date_valid(slice_of(good[i])))
            fail_msg("%s", good[i]);
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++)
        if (iso_date_valid(slice_of(bad[i])))
            fail_msg("%s", bad[i]);
}

static void
finds_near_words(void **state)
{
    (void)state;
    assert_string_equal(nearest_word(SLICE("yeild"), front_matter_keys), "yield");
    assert_string_equal(nearest_word(SLICE("INGREDIENT"), front_matter_keys), "ingredients");
    assert_null(nearest_word(SLICE("x"), front_matter_keys));
    assert_null(nearest_word(SLICE(""), front_matter_keys));
    assert_true(nearest_is_swapped(SLICE("cusp"), SLICE("cups")));
    assert_false(nearest_is_swapped(SLICE("cuss"), SLICE("cups")));
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(reads_all_keys),   cmocka_unit_test(tells_what_is_wrong),
        cmocka_unit_test(reads_portions),   cmocka_unit_test(checks_dates),
        cmocka_unit_test(finds_near_words),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
