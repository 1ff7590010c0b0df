/* Yield and portion, and dishes laid out from whole posts with the project's own tables. */
#include "made_dish.h"

#include "own_tables.h"
#include "reckon/dish_build.h"

struct laid {
    struct arena *arena;
    struct notices notices;
    struct dish dish;
};

static struct arena *shared;
static struct tables *tables;

static int
open_tables(void **state)
{
    (void)state;
    shared = arena_open(1 << 20);
    tables = repository_tables(shared);
    return 0;
}

static int
close_tables(void **state)
{
    (void)state;
    arena_close(shared);
    return 0;
}

/* a post with these lines of front matter over its ingredients */
static struct laid
lay(const char *front, const char *ingredients)
{
    struct arena *a = arena_open(1 << 16);
    struct laid l = {.arena = a, .notices = {.arena = a}};
    struct notices reading = {.arena = a};
    struct reads reads = reads_new(a);
    struct post *post = arena_take(a, sizeof *post);
    char *bytes =
        text_format(a, "---\ntitle: A dish\n%s\ningredients:\n%s---\n\n## Method\n1. Mix.\n", front,
                    ingredients);
    post_read(a, tables->words, &(struct post_bytes){"dish.md", slice_of(bytes)}, &reading, post);
    l.notices.arena = a;
    dish_build(a, post, tables, &reads, &l.notices, &l.dish);
    return l;
}

static size_t
noticed(const struct laid *l, enum rule rule)
{
    size_t count = 0;
    for (size_t i = 0; i < l->notices.count; i++)
        count += l->notices.items[i].rule == rule;
    return count;
}

static const struct yields {
    const char *front;
    bool known;
    double portions, high; /* the fewest and the most */
    size_t misfits;
} yields[] = {
    {"yield: 24 fingers\nportion: 4 fingers", true, 6, 6, 0},
    {"portions: 6", true, 6, 6, 0},
    {"serves: 4-6", true, 4, 6, 0}, /* reckoned for the fewest */
    {"yield: 900 g\nportion: 150 g", true, 6, 6, 0},
    {"yield: 1.2 L\nportion: 1 cup\nmeasures: metric", true, 4.8, 4.8, 1},
    {"yield: 24 fingers\nportion: 5 fingers", true, 4.8, 4.8, 1}, /* does not divide */
    {"yield: 1 loaf (12 slices)\nportion: 2 slices", true, 6, 6, 0},
    {"yield: 1 cake\nportion: 1/8 cake", true, 8, 8, 0},
    {"yield: 12 muffins\nportion: 1 large muffin", true, 12, 12, 0},
    {"yield: 24 fingers\nportion: 150 g", false, 1, 1, 1}, /* another kind */
    {"yield: 24 slices\nportion: 1 loaf", false, 1, 1, 1},
    {"yield: 4 servings", true, 4, 4, 0},
    {"yield: 12 muffins", false, 1, 1, 1}, /* nobody says how many one eats */
    {"yield: 4 fingers\nportion: 6 fingers", false, 1, 1, 1},
    {"yield: 24 fingers\nportion: 4 fingers\nportions: 6", true, 6, 6, 0},
    {"yield: 24 fingers\nportion: 4 fingers\nportions: 3", true, 3, 3, 1}, /* the fewest of both */
    {"yield: 20-24 fingers\nportion: 4 fingers", true, 5, 6, 0},
};

static void
counts_portions(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof yields / sizeof *yields; i++) {
        const struct yields *y = &yields[i];
        struct laid l = lay(y->front, "  - 100 g butter\n");
        const struct dish *d = &l.dish;
        if (d->portions_known != y->known || fabs(dish_divisor(d) - y->portions) > 1e-9 ||
            (y->known && fabs(d->portions.high - y->high) > 1e-9) ||
            noticed(&l, RULE_YIELD_MISFIT) != y->misfits)
            fail_msg("%s: known %d, %g to %g portions, %zu misfits", y->front, d->portions_known,
                     d->portions.low, d->portions.high, noticed(&l, RULE_YIELD_MISFIT));
        arena_close(l.arena);
    }
}

static const struct helping *
helping(const struct laid *l, size_t i, size_t o, size_t k)
{
    return &l->dish.ingredients[i].options[o].helpings[k];
}

static void
lays_out_lines(void **state)
{
    (void)state;
    struct laid l =
        lay("portions: 4\nmeasures: au", "  - 40 g butter, plus 10 g to finish\n"
                                         "  - 2 tbsp maple syrup or brown sugar\n"
                                         "  - salt and pepper (optional)\n"
                                         "  - zest and juice of 1 lemon\n"
                                         "  - {food: olive oil, amount: 200 g, stays: 20 %}\n");
    assert_int_equal(l.dish.count, 5);
    /* counted once, in full */
    assert_near(helping(&l, 0, 0, 0)->eaten.mid, 50, 1e-9);
    assert_int_equal(l.dish.ingredients[1].option_count, 2);
    assert_non_null(helping(&l, 1, 0, 0)->food);
    assert_non_null(helping(&l, 1, 1, 0)->food);
    assert_true(helping(&l, 1, 0, 0)->food != helping(&l, 1, 1, 0)->food);
    assert_int_equal(l.dish.ingredients[2].options[0].count, 2);
    assert_true(l.dish.ingredients[2].optional);
    /* two foods: juice and zest */
    assert_int_equal(l.dish.ingredients[3].options[0].count, 2);
    /* what is eaten of the frying oil: 200 g x 20 % */
    assert_near(helping(&l, 4, 0, 0)->eaten.mid, 40, 1e-9);
    assert_near(helping(&l, 4, 0, 0)->weighing.grams.mid, 200, 1e-9);
    arena_close(l.arena);
}

static void
heeds_a_bracket_that_names_other_produce(void **state)
{
    (void)state;
    static const char *const rows[][2] = {
        {"1 cup diced turnip (rutabaga)", "swede"},
        {"2 chillies (jalapeños)", "jalapeno"},
        {"1 leek (like onion)", "leek"},
        {"1 onion (red)", "red-onion"},
        {"2 tbsp pesto (basil)", "pesto"},
        {"1 sweet potato (kumara)", "sweet-potato"},
        {"1 turnip (about 200 g), diced", "turnip"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        char lines[80];
        snprintf(lines, sizeof lines, "  - %s\n", rows[i][0]);
        struct laid l = lay("portions: 4\nmeasures: us", lines);
        assert_string_equal(helping(&l, 0, 0, 0)->food->id, rows[i][1]);
        arena_close(l.arena);
    }
}

static void
keeps_what_it_does_not_know(void **state)
{
    (void)state;
    struct laid l = lay("portions: 2", "  - 100 g powdered moonstone\n  - 50 g butter\n");
    assert_int_equal(l.dish.count, 2);
    assert_null(helping(&l, 0, 0, 0)->food);
    assert_int_equal(noticed(&l, RULE_FOOD_UNKNOWN), 1);
    struct phase_stand s;
    portion_stand(l.arena, &l.dish, tables, tables->site.phase, NULL, &s);
    assert_int_equal(s.standing, STANDING_UNKNOWN);
    arena_close(l.arena);
    l = lay("portions: 2\nmeasures: moon", "  - 50 g butter\n");
    assert_int_equal(noticed(&l, RULE_VALUE_UNREADABLE), 1);
    arena_close(l.arena);
}

/* what comes to the same is one way; those behind it are read as if it were not there */
static void
takes_same_alternatives_once(void **state)
{
    (void)state;
    static const char *const lines[] = {
        "  - 300 g rice or rice or 2 leeks\n", "  - 300 g rice or 2 leeks or rice\n",
        "  - 300 g rice or rice or rice or 2 leeks\n",
        "  - {food: rice, amount: 300 g, or: [300 g rice, 2 leeks]}\n"};
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++) {
        struct laid l = lay("portions: 2", lines[i]);
        const struct ingredient *in = &l.dish.ingredients[0];
        assert_int_equal(in->option_count, 2);
        for (size_t o = 0; o < 2; o++) {
            assert_int_equal(in->options[o].count, 1);
            assert_string_equal(in->options[o].helpings[0].food->id, o == 0 ? "rice" : "leek");
        }
        arena_close(l.arena);
    }
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(counts_portions),
        cmocka_unit_test(lays_out_lines),
        cmocka_unit_test(heeds_a_bracket_that_names_other_produce),
        cmocka_unit_test(keeps_what_it_does_not_know),
        cmocka_unit_test(takes_same_alternatives_once),
    };
    return cmocka_run_group_tests_name("dish", tests, open_tables, close_tables);
}
