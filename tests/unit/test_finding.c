#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "judge/finding.h"
#include "judge/rules.h"

static void
every_rule_has_its_row(void **state)
{
    (void)state;
    for (int r = 0; r < RULES; r++) {
        const struct rule_row *row = rules_row((enum rule)r);
        assert_non_null(row->id);
        assert_true(row->level >= LEVEL_NOTE && row->level <= LEVEL_ERROR);
        assert_true(strlen(row->message) > 5 && strlen(row->meaning) > 20);
        assert_true(strlen(row->source) > 3);
        enum rule back;
        assert_true(rules_by_id(slice_of(row->id), &back));
        assert_int_equal(back, r); /* ids differ */
        for (const char *p = row->id; *p != '\0'; p++)
            assert_true((*p >= 'a' && *p <= 'z') || (*p >= '0' && *p <= '9') || *p == '-');
    }
    enum rule none;
    assert_false(rules_by_id(SLICE("no-such-rule"), &none));
}

static void
notices_become_findings_in_order(void **state)
{
    (void)state;
    struct arena *a = arena_open(4096);
    struct notices n = {.arena = a};
    struct place low = {9, 3, 4}, high = {2, 5, 4};
    notice_add(&n, RULE_UNIT_UNKNOWN, low, SLICE("tbps"), SLICE("; the nearest is “tbsp”"));
    notice_add(&n, RULE_PORTION_CLOSE, high, SLICE("fructan"), SLICE("0.91"));
    notice_add(&n, RULE_UNIT_UNKNOWN, low, SLICE("tbps"), SLICE("; the nearest is “tbsp”"));
    struct findings f;
    findings_make(a, "posts/a.md", &n, &f);
    assert_int_equal(f.count, 2); /* the repeat is dropped */
    /* what stops a reader comes before what stands higher up */
    assert_int_equal(f.items[0].level, LEVEL_ERROR);
    assert_int_equal(f.items[1].place.line, 2);
    assert_true(slice_is(f.items[0].message, "there is no unit “tbps”; the nearest is “tbsp”"));
    assert_int_equal(f.worst, LEVEL_ERROR);
    assert_int_equal(f.count_by_level[LEVEL_NOTE], 1);
    /* other braces of a mend stay as they are */
    notice_add(&n, RULE_IMAGE_MISSING, (struct place){1, 0, 0}, SLICE(""), SLICE(""));
    findings_make(a, "posts/a.md", &n, &f);
    assert_non_null(strstr(slice_string(a, f.items[2].mend), "{file: "));
    arena_close(a);
}

static void
answers_are_counted_and_unused_ones_found(void **state)
{
    (void)state;
    struct arena *a = arena_open(4096);
    struct notices n = {.arena = a};
    notice_add(&n, RULE_FOOD_UNKNOWN, (struct place){3, 1, 2}, SLICE("nettle"), SLICE(""));
    notice_add(&n, RULE_FOOD_UNKNOWN, (struct place){4, 1, 2}, SLICE("sorrel"), SLICE(""));
    notice_add(&n, RULE_TITLE_MISSING, (struct place){1, 0, 0}, SLICE(""), SLICE(""));
    struct answer given[] = {
        {{SLICE("food-unknown nettle"), {7, 3, 5}}, {SLICE("nobody has measured it"), {7, 9, 5}}},
        {{SLICE("title-missing"), {8, 3, 5}}, {SLICE("it has none"), {8, 9, 5}}},
    };
    struct findings f;
    findings_make(a, "a.md", &n, &f);
    findings_answer(a, "a.md", given, 2, &f);
    assert_int_equal(f.answered, 1);
    assert_int_equal(f.count, 4); /* what cannot be answered gives answer-unused */
    assert_int_equal(f.worst, LEVEL_ERROR);
    for (size_t i = 0; i < f.count; i++)
        assert_int_equal(f.items[i].answered, f.items[i].place.line == 3);
    arena_close(a);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_rule_has_its_row),
        cmocka_unit_test(notices_become_findings_in_order),
        cmocka_unit_test(answers_are_counted_and_unused_ones_found),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
