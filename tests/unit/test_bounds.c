/* What a content that has no figure is at most, tried on contents that have one: each is left out,
 * and bounded as if nobody had it. */
#include "own_tables.h"

#include <math.h>

#include "reckon/composition.h"
#include "tables/food_most.h"
#include "tables/larder.h"

/* one kind of bound, and how often the figure lies under it */
struct tally {
    const char *name;
    size_t tried, under;
    bool told; /* print what does not */
};

static bool
is_tried(const struct figure *f)
{
    return figure_known(f) && (f->kind == FIGURE_SAMPLES || f->kind == FIGURE_RANGE) &&
           f->span.mid > 0 && f->basis != BASIS_PRACTICE;
}

static void
note(struct tally *t, const struct food *f, enum group g, double bound)
{
    const double is = f->contents[g].span.mid;
    t->tried++;
    t->under += is <= bound * (1 + 1e-9);
    if (is > bound * (1 + 1e-9) && t->told)
        printf("#   %s, %s: %g, bounded at %g\n", f->id, groups_word(g), is, bound);
}

/* the food as if nobody had its figure; a sum that was measured stays */
static struct food
without(const struct food *f, enum group g)
{
    struct food copy = *f;
    copy.contents[g] = (struct figure){.basis = BASIS_NONE};
    return copy;
}

static void
bounds_hold_what_is_known(void **state)
{
    const struct tables *t = *state;
    struct tally own = {"own figures", 0, 0, true}, kin = {"kin", 0, 0, true},
                 both = {"the lesser of both", 0, 0, false};
    struct arena *a = arena_open(1 << 20);
    for (size_t i = 0; i < larder_count(t->larder); i++) {
        const struct food *f = larder_food(t->larder, i);
        for (enum group g = 0; g < GROUPS; g++) {
            if (groups_is_sum(g) || (f->reckoned >> g & 1) != 0 || !is_tried(&f->contents[g]))
                continue;
            arena_reset(a);
            const struct food copy = without(f, g);
            const double by_own = food_own_bound(&copy, g, NULL);
            const struct kin by_kin = food_kin_without(t->larder, a, f, g);
            const bool has_kin = !f->kinless && by_kin.foods >= KIN_LEAST;
            if (!isnan(by_own))
                note(&own, f, g, by_own);
            if (has_kin)
                note(&kin, f, g, by_kin.bound);
            if (has_kin || !isnan(by_own))
                note(&both, f, g, fmin(has_kin ? by_kin.bound : INFINITY, by_own));
        }
    }
    const struct tally *const tallies[] = {&own, &kin, &both};
    for (size_t i = 0; i < 3; i++) {
        const struct tally *y = tallies[i];
        printf("# by %s: %zu of %zu figures above zero lie under the bound (%.1f %%)\n", y->name,
               y->under, y->tried, 100.0 * (double)y->under / (double)y->tried);
    }
    for (size_t i = 0; i < 3; i++) {
        assert_true(tallies[i]->tried > 100);
        assert_true(tallies[i]->under * 100 >= tallies[i]->tried * 95);
    }
    arena_close(a);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(bounds_hold_what_is_known)};
    return cmocka_run_group_tests(tests, take_repository_tables, drop_repository_tables);
}
