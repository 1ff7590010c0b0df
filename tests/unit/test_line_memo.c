/* Lines remembered: what a memo gives is what reading anew gives, reads and notices included. */
#include "made_dish.h"

#include "own_tables.h"

#include "compile/outcome.h"
#include "reckon/line_memo.h"

static const char *const lines =
    "  - 2 tbsp olive oil, plus extra to serve\n  - 1 cup (170 g) rice\n  - 1 tsp salt\n"
    "  - salt and pepper, to taste\n  - 3 large eggs\n  - 1 x 400 g tin chickpeas, drained\n"
    "  - 2 tbsp butter or oil (optional)\n  - zest and juice of 1 lemon\n  - 2 cups of wobble\n"
    "  - 1 tsp salt\n  - {food: honey, amount: 2 tbsp}\n  - 3\n";

struct laid {
    struct reads reads;
    struct notices notices;
    struct dish dish;
};

static struct laid
lay(struct arena *a, const struct tables *t, const char *before, struct line_memo *memo)
{
    struct laid l = {.reads = reads_new(a), .notices = {.arena = a}};
    struct notices reading = {.arena = a};
    struct post *post = arena_take(a, sizeof *post);
    char *bytes =
        text_format(a, "---\ntitle: A dish\n%s\ningredients:\n%s---\n\n1. Mix.\n", before, lines);
    post_read(a, "dish.md", slice_of(bytes), &reading, post);
    dish_lay(a, post, t, memo, &l.reads, &l.notices, &l.dish);
    return l;
}

static void
assert_same(const struct laid *one, const struct laid *two)
{
    assert_int_equal(one->reads.count, two->reads.count);
    for (size_t i = 0; i < one->reads.count; i++) {
        const struct entry *e = one->reads.items[i], *f = two->reads.items[i];
        assert_string_equal(e->key, f->key);
        assert_true(e->digest == f->digest);
    }
    assert_int_equal(one->notices.count, two->notices.count);
    for (size_t i = 0; i < one->notices.count; i++) {
        assert_int_equal(one->notices.items[i].rule, two->notices.items[i].rule);
        assert_int_equal(one->notices.items[i].place.line, two->notices.items[i].place.line);
        assert_int_equal(one->notices.items[i].place.column, two->notices.items[i].place.column);
        assert_true(slice_equal(one->notices.items[i].what, two->notices.items[i].what));
    }
    assert_int_equal(one->dish.count, two->dish.count);
    for (size_t i = 0; i < one->dish.count; i++) {
        const struct ingredient *in = &one->dish.ingredients[i], *as = &two->dish.ingredients[i];
        assert_true(slice_equal(in->line.text, as->line.text));
        assert_int_equal(in->line.node->place.line, as->line.node->place.line);
        assert_int_equal(in->part, as->part);
        assert_int_equal(in->words->count, as->words->count);
        assert_int_equal(in->optional, as->optional);
        assert_int_equal(in->option_count, as->option_count);
        for (size_t o = 0; o < in->option_count; o++) {
            assert_int_equal(in->options[o].count, as->options[o].count);
            for (size_t k = 0; k < in->options[o].count; k++) {
                const struct helping *h = &in->options[o].helpings[k],
                                     *g = &as->options[o].helpings[k];
                assert_ptr_equal(h->food, g->food);
                assert_ptr_equal(h->form, g->form);
                assert_true(slice_equal(h->written->name, g->written->name));
                assert_int_equal(h->weighing.known, g->weighing.known);
                assert_memory_equal(&h->eaten, &g->eaten, sizeof h->eaten);
            }
        }
    }
}

static void
remembers_exactly(void **state)
{
    (void)state;
    struct arena *a = arena_open(1 << 20), *post = arena_open(1 << 16);
    struct tables *t = repository_tables(a);
    struct line_memo *memo = line_memo_open(1);
    static const char *const before[] = {"portions: 4", "portions: 4", "portions: 4\nmeasures: us",
                                         "summary: >-\n  two\n  lines\nportions: 2",
                                         "portions: 4\nmeasures: us"};
    assert_non_null(memo);
    for (size_t i = 0; i < sizeof before / sizeof *before; i++) {
        struct laid plain = lay(a, t, before[i], NULL);
        line_memo_begin(memo, t);
        arena_reset(post); /* what a memo holds does not live in a post's arena */
        struct laid remembered = lay(post, t, before[i], memo);
        assert_true(plain.dish.count == 12 && plain.notices.count > 1);
        assert_same(&plain, &remembered);
    }
    line_memo_close(memo);
    arena_close(post);
    arena_close(a);
}

static void
assert_slices(struct slice one, struct slice two)
{
    assert_true(slice_equal(one, two));
}

/* a helping in the words of one region's kitchens, first made and then kept, as if written anew */
static void
assert_kept(struct arena *a, const struct helping *h, int region, int home, const struct tables *t,
            bool round_down)
{
    struct reads plain = reads_new(a);
    struct household anew, kept;
    household_write_anew(a, h, region, home, t, round_down, &plain, &anew);
    for (int again = 0; again < 2; again++) {
        struct reads noted = reads_new(a);
        assert_true(line_memo_household(h, region, home, t, round_down, &noted, &kept));
        assert_slices(kept.measure, anew.measure);
        assert_slices(kept.grams, anew.grams);
        assert_true(kept.grams_rounded == anew.grams_rounded);
        assert_int_equal(kept.by_volume, anew.by_volume);
        assert_int_equal(noted.count, plain.count);
        for (size_t i = 0; i < plain.count; i++)
            assert_string_equal(noted.items[i]->key, plain.items[i]->key);
    }
}

static void
keeps_what_was_written_for_kitchens(void **state)
{
    (void)state;
    struct arena *a = arena_open(1 << 20);
    struct tables *t = repository_tables(a);
    struct line_memo *memo = line_memo_open(1);
    assert_non_null(memo);
    line_memo_begin(memo, t);
    const struct laid l = lay(a, t, "portions: 4\nmeasures: uk", memo);
    size_t tried = 0;
    for (size_t i = 0; i < l.dish.count; i++)
        for (size_t o = 0; o < l.dish.ingredients[i].option_count; o++)
            for (size_t k = 0; k < l.dish.ingredients[i].options[o].count; k++) {
                const struct helping *h = &l.dish.ingredients[i].options[o].helpings[k];
                struct household out;
                if (h->kept == NULL) /* a line that is read each time */
                    continue;
                tried++;
                for (int r = 0; r < (int)t->measures.region_count; r++) {
                    assert_kept(a, h, r, l.dish.region, t, false);
                    assert_kept(a, h, r, l.dish.region, t, true);
                    if (r != l.dish.region)
                        assert_false(line_memo_household(h, r, r, t, true, NULL, &out));
                }
            }
    assert_true(tried > 8);
    line_memo_close(memo);
    arena_close(a);
}

/* more lines than are held at a time */
static void
forgets_what_is_too_much(void **state)
{
    (void)state;
    struct arena *a = arena_open(1 << 20), *each = arena_open(1 << 16);
    struct tables *t = repository_tables(a);
    struct line_memo *memo = line_memo_open(1);
    assert_non_null(memo);
    for (int i = 0; i < 4000; i++) {
        struct reads reads = reads_new(each);
        struct ingredient in = {.part = 0};
        char *text = text_format(each, "%d g flour", i + 1);
        struct yaml_node node = {.kind = YAML_SCALAR_NODE, .text = slice_of(text)};
        line_memo_begin(memo, t);
        assert_true(line_memo_lay(memo, each, &node, 0, t, &reads, &in));
        assert_true(in.options[0].helpings[0].eaten.mid == i + 1);
        assert_ptr_equal(in.line.node, &node);
        assert_true(line_memo_lay(memo, each, &node, 0, t, &reads, &in));
        assert_true(in.options[0].helpings[0].eaten.mid == i + 1);
        arena_reset(each);
    }
    line_memo_close(memo);
    arena_close(each);
    arena_close(a);
}

/* the cautions of a post, as a press finds them one post after the other */
static size_t
cautions_of(const struct tables *t, struct line_memo *memo, const char *front, const char *method)
{
    struct arena *a = arena_open(1 << 16);
    struct reads reads = reads_new(a);
    struct outcome *o = arena_take(a, sizeof *o);
    char *bytes = text_format(a, "---\ntitle: A dish\n%s\n---\n\n## Method\n%s\n", front, method);
    outcome_compile(a, "dish.md", slice_of(bytes), t, NULL, memo, &reads, o);
    size_t count = o->hazards.count;
    arena_close(a);
    return count;
}

/* what a book learnt of posts without a plain line holds for those with some, and no book outlives
 * its tables */
static void
begins_with_its_tables(void **state)
{
    (void)state;
    static const char *const posts[][2] = {
        {"ingredients:\n  - {food: rolled oats, amount: 100 g}", "1. Simmer the oats, stirring."},
        {"portions: 4", "1. Rest for 10 minutes at the most."},
        {"ingredients:\n  - 200 g sugar", "1. Boil the sugar to hard crack, an amber caramel."},
        {"ingredients:\n  - 200 g sugar", "1. Boil the sugar to hard crack, an amber caramel."},
    };
    enum { POSTS = sizeof posts / sizeof *posts };
    struct arena *a = arena_open(1 << 20);
    const struct tables *const tables[] = {repository_tables(a), repository_tables(a)};
    struct line_memo *memo = line_memo_open(1);
    assert_non_null(memo);
    for (size_t i = 0; i < 2 * POSTS; i++) {
        const char *const *post = posts[i % POSTS];
        size_t count = cautions_of(tables[i / POSTS], NULL, post[0], post[1]);
        assert_int_equal(count > 0, i % POSTS >= 2);
        assert_int_equal(cautions_of(tables[i / POSTS], memo, post[0], post[1]), count);
    }
    line_memo_close(memo);
    arena_close(a);
}

/* rows are kept when a divisor comes the second time, and are then what sheet_lay gives */
static void
keeps_the_rows_of_sheets(void **state)
{
    (void)state;
    struct arena *a = arena_open(1 << 20), *post = arena_open(1 << 16);
    struct tables *t = repository_tables(a);
    struct line_memo *memo = line_memo_open(1);
    line_memo_begin(memo, t);
    for (int round = 0; round < 9; round++) {
        struct sheet kept, whole;
        char *before = text_format(post, "portions: %d", 2 + round % 3);
        struct laid l = lay(post, t, before, memo);
        struct reads reads = reads_new(post), expected = reads_new(post);
        const int phase = 0;
        sheet_lay_beside(post, &l.dish, t, phase, NULL, &reads, &kept);
        sheet_lay(post, &l.dish, t, phase, &expected, &whole);
        assert_int_equal(reads.count, expected.count);
        for (size_t i = 0; i < reads.count; i++)
            assert_ptr_equal(reads.items[i], expected.items[i]);
        assert_int_equal(kept.helping_count, whole.helping_count);
        assert_memory_equal(kept.fixed.columns, whole.fixed.columns,
                            COLUMNS * sizeof *kept.fixed.columns);
        for (size_t i = 0; i < kept.count; i++)
            for (size_t k = 0; k < kept.rows[i].load_count; k++)
                assert_memory_equal(&kept.rows[i].loads[k], &whole.rows[i].loads[k],
                                    sizeof *kept.rows[i].loads);
        /* a changed copy is no longer what was kept */
        struct ingredient changed = l.dish.ingredients[4];
        const struct limit_scope limit_scope = {&t->limits.phases[phase], &t->limits.phases[0],
                                                NULL};
        struct sheet_row row;
        changed.option_count = 0;
        assert_false(line_memo_row(&changed, dish_divisor(&l.dish), t, &limit_scope, &row));
        assert_int_equal(
            line_memo_row(&l.dish.ingredients[4], dish_divisor(&l.dish), t, &limit_scope, &row),
            round >= 3);
        arena_reset(post);
    }
    line_memo_close(memo);
    arena_close(post);
    arena_close(a);
}

static void
remembers_what_words_name(void **state)
{
    (void)state;
    static const char *const asked[] = {"butter", "wobbles", "brown sugar",
                                        "butter", "wobbles", "Butter"};
    struct arena *a = arena_open(1 << 20), *post = arena_open(1 << 16);
    struct tables *t = repository_tables(a);
    struct line_memo *memo = line_memo_open(1);
    line_memo_begin(memo, t);
    for (size_t i = 0; i < sizeof asked / sizeof *asked; i++) {
        struct reads reads = reads_new(post), expected = reads_new(post);
        const bool named = larder_names(t->larder, post, slice_of(asked[i]), &expected);
        assert_int_equal(line_memo_names(memo, post, t->larder, slice_of(asked[i]), &reads), named);
        assert_int_equal(named, i % 3 != 1);
        assert_int_equal(reads.count, expected.count);
        for (size_t k = 0; k < reads.count; k++) {
            assert_string_equal(reads.items[k]->key, expected.items[k]->key);
            assert_true(reads.items[k]->digest == expected.items[k]->digest);
        }
        arena_reset(post);
    }
    line_memo_close(memo);
    arena_close(post);
    arena_close(a);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(remembers_exactly),
                                       cmocka_unit_test(keeps_what_was_written_for_kitchens),
                                       cmocka_unit_test(forgets_what_is_too_much),
                                       cmocka_unit_test(begins_with_its_tables),
                                       cmocka_unit_test(keeps_the_rows_of_sheets),
                                       cmocka_unit_test(remembers_what_words_name)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
