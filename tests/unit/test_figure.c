#include "own_tables.h"

#include <math.h>

#include "tables/row.h"

#define assert_near(a, b, by) assert_true(fabs((a) - (b)) < (by))

static const struct figure_asked asked = {"density", "g per mL", 20, false, {"whole", 5}, false};
static const struct figure_asked content = {"content", "g per 100 g", 100, false, {NULL, 0}, true};

static bool
reads_as(const struct figure_asked *what, const char *text, struct figure *out,
         size_t *notice_count)
{
    struct arena *a = arena_open(4096);
    struct notices n = {.arena = a};
    struct row row = {.arena = a, .texts = a, .notices = &n, .entry = SLICE("banana")};
    bool read = figure_read(&row, yaml_of(a, text, &n), what, out);
    *notice_count = n.count;
    arena_close(a);
    return read;
}

static bool
reads(const char *text, struct figure *out, size_t *notice_count)
{
    return reads_as(&asked, text, out, notice_count);
}

/* the log-normal of mean 0.42 and standard deviation 0.11: its 5th, 50th and 95th percentile by
 * scipy.stats.lognorm(s=0.25765, scale=0.40630).ppf */
static void
a_content_says_its_kind(void **state)
{
    (void)state;
    struct figure f;
    size_t notices;
    assert_true(reads_as(&content,
                         "{kind: samples, n: 6, mean: 0.42, sd: 0.11, source: s, basis: measured}",
                         &f, &notices));
    assert_int_equal(f.kind, FIGURE_SAMPLES);
    assert_near(f.span.low, 0.26595, 1e-4);
    assert_near(f.span.mid, 0.40630, 1e-4);
    assert_near(f.span.high, 0.62072, 1e-4);
    assert_true(reads_as(
        &content, "{kind: range, low: 0.1, mid: 0.2, high: 0.4, source: s, basis: published}", &f,
        &notices));
    assert_int_equal(f.kind, FIGURE_RANGE);
    assert_true(
        reads_as(&content, "{kind: below, high: 0.05, source: s, basis: measured}", &f, &notices));
    assert_int_equal(f.kind, FIGURE_BELOW);
    assert_true(f.span.low == 0 && f.span.high == 0.05);
    assert_true(reads_as(&content, "{kind: none, source: s, basis: published}", &f, &notices));
    assert_int_equal(f.kind, FIGURE_NONE);
    assert_true(f.span.high == 0);
    static const char *const wrong[] = {
        "{kind: below, high: 0.2, source: s, basis: measured}", /* a bound alone */
        "{kind: below, source: s, basis: measured}",
        "{kind: samples, n: 6, mean: 0.4, source: s, basis: measured}",
        "{kind: samples, n: 6, mean: 0, sd: 0.1, source: s, basis: measured}",
        "{kind: nothing, source: s, basis: measured}",
        "{kind: none, basis: measured}",
    };
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        assert_false(reads_as(&content, wrong[i], &f, &notices));
        assert_int_equal(notices, 1);
    }
}

static void
mid_alone_has_no_width(void **state)
{
    (void)state;
    struct figure f;
    size_t notices;
    assert_true(reads("{mid: 0.95, source: s, basis: published}", &f, &notices));
    assert_true(f.span.low == 0.95 && f.span.high == 0.95);
    assert_int_equal(f.basis, BASIS_PUBLISHED);
    assert_int_equal(notices, 0);
    assert_true(reads("{low: 1, mid: 2, high: 4, source: s, basis: practice}", &f, &notices));
    assert_true(f.span.low == 1 && f.span.mid == 2 && f.span.high == 4);
}

static void
what_is_no_figure_is_said(void **state)
{
    (void)state;
    static const char *const wrong[] = {
        "{mid: 1, basis: published}",
        "{mid: 1, source: s}",
        "{mid: 1, source: s, basis: guess}",
        "{low: 2, mid: 1, source: s, basis: published}",
        "{mid: 2, high: 1, source: s, basis: published}",
        "{mid: -1, source: s, basis: published}",
        "{mid: many, source: s, basis: published}",
        "{low: 1, high: 2, source: s, basis: published}",
        "{mid: 1, source: '', basis: published}",
        "{mid: 1, sauce: s, source: s, basis: published}",
        "[1, 2]",
    };
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        struct figure f = {.basis = BASIS_MEMORY};
        size_t notices;
        assert_false(reads(wrong[i], &f, &notices));
        assert_int_equal(notices, 1);
        assert_false(figure_known(&f));
    }
}

static void
digests_tell_values_not_spellings(void **state)
{
    (void)state;
    struct figure a, b, c, none = {.basis = BASIS_NONE};
    struct arena *arena = arena_open(4096);
    struct notices n = {.arena = arena};
    struct row row = {.arena = arena, .texts = arena, .notices = &n, .entry = SLICE("banana")};
    figure_read(&row, yaml_of(arena, "{mid: 0.50, source: s, basis: memory}", &n), &asked, &a);
    figure_read(&row, yaml_of(arena, "{basis: memory, source: 's', mid: 5e-1, low: .5}", &n),
                &asked, &b);
    figure_read(&row, yaml_of(arena, "{mid: 0.51, source: s, basis: memory}", &n), &asked, &c);
    assert_true(figure_digest(&a, 1) == figure_digest(&b, 1));
    assert_true(figure_digest(&a, 1) != figure_digest(&c, 1));
    assert_true(figure_digest(&a, 1) != figure_digest(&none, 1));
    c = a;
    c.basis = BASIS_MEASURED;
    assert_true(figure_digest(&a, 1) != figure_digest(&c, 1));
    arena_close(arena);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_content_says_its_kind),
        cmocka_unit_test(mid_alone_has_no_width),
        cmocka_unit_test(what_is_no_figure_is_said),
        cmocka_unit_test(digests_tell_values_not_spellings),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
