/* What must hold of any dish, tried on hundreds of random ones. A failure prints its seed;
 * DARIOLE_SEED tries that one. */
#include "made_dish.h"

#include "reckon/choices.h"
#include "reckon/portion.h"

enum { DISHES = 400, FOODS = 13 };

static const char *const known_foods[FOODS] = {
    "grain-f", "legume-g", "veg-fg", "fruit-x", "fruit-x2", "fruit-xs", "veg-m",
    "dairy-l", "dry-x",    "nil",    "veg-t",   "no-gos",   "nothing"};

static const char foods[] =
    "foods:\n"
    "  grain-f: {name: a1, class: grain, forms: {whole: {}}, per-100-g: {lactose: &n {mid: 0, "
    "source: t, basis: calculated}, excess-fructose: *n, fructan: {low: 0.5, mid: 1, high: 1.5, "
    "source: t, basis: published}, galacto-oligosaccharide: *n, sorbitol: *n, mannitol: *n}}\n"
    "  legume-g: {name: a2, class: legume, forms: {whole: {}}, per-100-g: {lactose: *n, "
    "excess-fructose: *n, fructan: *n, galacto-oligosaccharide: {low: 0.6, mid: 1.2, high: 1.3, "
    "source: t, basis: published}, sorbitol: *n, mannitol: *n}}\n"
    "  veg-fg: {name: a3, class: vegetable, fresh: yes, forms: {whole: {}}, per-100-g: {lactose: "
    "*n, excess-fructose: {low: 0, mid: 0.1, high: 0.3, source: t, basis: published}, fructan: "
    "{mid: 0.4, source: t, basis: published}, galacto-oligosaccharide: {mid: 0.1, source: t, "
    "basis: published}, sorbitol: *n, mannitol: *n}}\n"
    "  fruit-x: {name: a4, class: fruit, fresh: yes, forms: {whole: {}}, per-100-g: {lactose: *n, "
    "excess-fructose: {low: 0.2, mid: 0.5, high: 1, source: t, basis: published}, fructan: *n, "
    "galacto-oligosaccharide: *n, sorbitol: *n, mannitol: *n}}\n"
    "  fruit-x2: {name: a5, class: fruit, fresh: yes, forms: {whole: {}}, per-100-g: {lactose: *n, "
    "excess-fructose: {mid: 2, source: t, basis: published}, fructan: *n, galacto-oligosaccharide: "
    "*n, sorbitol: *n, mannitol: *n}}\n"
    "  fruit-xs: {name: a6, class: fruit, fresh: yes, forms: {whole: {}}, per-100-g: {lactose: *n, "
    "excess-fructose: {mid: 0.4, source: t, basis: published}, fructan: *n, "
    "galacto-oligosaccharide: *n, sorbitol: {low: 0, mid: 0.2, high: 0.5, source: t, basis: "
    "published}, mannitol: *n}}\n"
    "  veg-m: {name: a7, class: vegetable, fresh: yes, forms: {whole: {}}, per-100-g: {lactose: "
    "*n, excess-fructose: *n, fructan: *n, galacto-oligosaccharide: *n, sorbitol: *n, mannitol: "
    "{low: 0.3, mid: 0.6, high: 0.9, source: t, basis: published}}}\n"
    "  dairy-l: {name: a8, class: dairy, forms: {whole: {}}, per-100-g: {lactose: {low: 4, mid: 5, "
    "high: 5.5, source: t, basis: published}, excess-fructose: *n, fructan: *n, "
    "galacto-oligosaccharide: *n, sorbitol: *n, mannitol: *n}}\n"
    "  dry-x: {name: a9, class: other, forms: {whole: {}}, per-100-g: {lactose: *n, "
    "excess-fructose: {low: 4, mid: 6, high: 9, source: t, basis: published}, fructan: *n, "
    "galacto-oligosaccharide: *n, sorbitol: *n, mannitol: *n}}\n"
    "  nil: {name: b1, class: other, forms: {whole: {}}, per-100-g: {all: *n}}\n"
    "  veg-t: {name: b2, class: vegetable, fresh: yes, forms: {whole: {}}, per-100-g: {lactose: "
    "*n, excess-fructose: {mid: 0.3, source: t, basis: published}, oligosaccharides: {low: 0.1, "
    "mid: 0.2, high: 0.3, source: t, basis: published}, sorbitol: *n, mannitol: *n}}\n"
    "  no-gos: {name: b3, class: vegetable, fresh: yes, forms: {whole: {}}, per-100-g: {lactose: "
    "*n, excess-fructose: {mid: 0.2, source: t, basis: published}, fructan: *n, sorbitol: *n, "
    "mannitol: *n}}\n"
    "  nothing: {name: b4, class: vegetable, forms: {whole: {}}}\n";

/* xorshift64*: the same dishes on every machine */
static double
chance(uint64_t *seed)
{
    *seed ^= *seed >> 12;
    *seed ^= *seed << 25;
    *seed ^= *seed >> 27;
    return (double)((*seed * 0x2545F4914F6CDD1DULL) >> 11) / 9007199254740992.0;
}

static size_t
up_to(uint64_t *seed, size_t most)
{
    return (size_t)(chance(seed) * (double)most) % most;
}

static struct helping
random_helping(struct made *m, uint64_t *seed)
{
    /* the last three lack figures: rarer */
    size_t food = up_to(seed, chance(seed) < 0.8 ? FOODS - 3 : FOODS);
    double mid = chance(seed) < 0.15 ? chance(seed) : chance(seed) * 60;
    double width = chance(seed) < 0.3 ? 0 : chance(seed) * 0.4;
    return made_weighed(m, known_foods[food], span_make(mid * (1 - width), mid, mid * (1 + width)));
}

static void
random_dish(struct made *m, uint64_t *seed)
{
    m->dish.count = 0;
    const size_t count = 1 + up_to(seed, 7);
    double variants = 1;
    for (size_t i = 0; i < count; i++) {
        struct ingredient *in = made_ingredient(m, variants < 32 && chance(seed) < 0.3);
        size_t options = variants < 32 && chance(seed) < 0.35 ? 2 + up_to(seed, 2) : 1;
        for (size_t o = 0; o < options; o++) {
            made_option(m, in, random_helping(m, seed));
            if (chance(seed) < 0.15)
                made_and(in, random_helping(m, seed));
            if (chance(seed) < 0.05)
                in->options[o].helpings[0].weighing.unmeasured = true;
        }
        variants *= (double)(options + (in->optional ? 1 : 0));
    }
    made_portions(m, 1 + (double)up_to(seed, 6));
}

/* the dish with one way settled for every ingredient */
static struct dish
resolved(struct made *m, const size_t *picks)
{
    struct dish d = m->dish;
    d.ingredients = arena_take_array(m->arena, d.count + 1, sizeof *d.ingredients);
    for (size_t i = 0, next = 0; i < m->dish.count; i++) {
        if (picks[i] == 0) {
            d.count--;
            continue;
        }
        d.ingredients[next] = m->dish.ingredients[i];
        d.ingredients[next].optional = false;
        d.ingredients[next].options += picks[i] - 1;
        d.ingredients[next++].option_count = 1;
    }
    return d;
}

static bool
next_picks(const struct made *m, size_t *picks)
{
    for (size_t i = 0; i < m->dish.count; i++) {
        const struct ingredient *in = &m->dish.ingredients[i];
        if (picks[i] < in->option_count) {
            picks[i]++;
            return true;
        }
        picks[i] = in->optional ? 0 : 1;
    }
    return false;
}

#define holds(seed, claim)                                                                  \
    do {                                                                                    \
        if (!(claim))                                                                       \
            fail_msg("seed %llu: not so: %s (line %d)", (unsigned long long)(seed), #claim, \
                     __LINE__);                                                             \
    } while (0)

/* calls `check` on many random dishes */
static void
each_dish(void (*check)(struct made *m, uint64_t seed))
{
    const char *one = getenv("DARIOLE_SEED");
    struct made *shared = made_open(foods);
    for (uint64_t n = 1; n <= (one != NULL ? 1 : DISHES); n++) {
        uint64_t seed = one != NULL ? strtoull(one, NULL, 10) : n * 0x9E3779B97F4A7C15ULL;
        uint64_t running = seed;
        struct made m = *shared;
        m.arena = arena_open(1 << 16);
        m.reads = reads_new(m.arena);
        m.dish.ingredients =
            arena_take_array(m.arena, MADE_INGREDIENTS_MOST, sizeof *m.dish.ingredients);
        random_dish(&m, &running);
        check(&m, seed);
        arena_close(m.arena);
    }
    made_close(shared);
}

/* whether some chance is so near a threshold that the order of sums could decide */
static bool
is_near_threshold(const struct phase_stand *s)
{
    for (size_t i = 0; i < s->limit_count; i++) {
        const double chances[] = {s->limits[i].worst.chance, s->limits[i].worst.most_chance};
        for (size_t k = 0; k < 2; k++)
            if (fabs(chances[k] - 0.5) < 0.01 || fabs(chances[k] - 0.2) < 0.01)
                return true;
    }
    return false;
}

/* the worst and the best standing, by one dish for each variant */
static void
check_enumeration(struct made *m, uint64_t seed)
{
    size_t picks[MADE_INGREDIENTS_MOST];
    enum standing worst = STANDING_WITHIN, best = STANDING_OVER;
    for (size_t i = 0; i < m->dish.count; i++)
        picks[i] = m->dish.ingredients[i].optional ? 0 : 1;
    do {
        struct dish d = resolved(m, picks);
        struct phase_stand s;
        portion_stand(m->arena, &d, &m->tables, 0, NULL, &s);
        worst = s.standing > worst ? s.standing : worst;
        best = s.standing < best ? s.standing : best;
    } while (next_picks(m, picks));
    struct phase_stand s = made_stand(m);
    holds(seed, s.standing == worst);
    holds(seed, s.best_standing == best);
}

static void
worst_and_best_agree_with_enumeration(void **state)
{
    (void)state;
    each_dish(check_enumeration);
}

/* the fewest choices settled: what is left stands as they say, and no one choice alone does better
 */
static void
check_settling(struct made *m, uint64_t seed)
{
    struct sheet sheet;
    struct phase_stand s, left;
    struct choices c;
    sheet_build(m->arena, &m->dish, &m->tables, NULL, &sheet);
    sheet_stand(m->arena, &sheet, 0, NULL, &s);
    choices_find(m->arena, &sheet, &s, &c);
    if (!c.differ)
        return;
    struct dish d = m->dish;
    d.ingredients = arena_take_array(m->arena, d.count + 1, sizeof *d.ingredients);
    memcpy(d.ingredients, m->dish.ingredients, d.count * sizeof *d.ingredients);
    for (size_t k = 0; k < c.resolve_count; k++) {
        struct ingredient *in = &d.ingredients[c.resolve[2 * k]];
        const size_t pick = c.resolve[2 * k + 1];
        in->optional = false;
        in->option_count = pick > 0;
        in->options += pick > 0 ? pick - 1 : 0;
    }
    portion_stand(m->arena, &d, &m->tables, 0, NULL, &left);
    holds(seed, left.standing == c.resolved);
    holds(seed, c.resolved <= s.standing);
    holds(seed, c.resolved >= s.best_standing);
}

static void
settled_choices_stand_as_they_say(void **state)
{
    (void)state;
    each_dish(check_settling);
}

static void
scale_dish(struct made *m, double by)
{
    for (size_t i = 0; i < m->dish.count; i++)
        for (size_t o = 0; o < m->dish.ingredients[i].option_count; o++)
            for (size_t k = 0; k < m->dish.ingredients[i].options[o].count; k++) {
                struct helping *h = &m->dish.ingredients[i].options[o].helpings[k];
                h->eaten = span_scale(h->eaten, by);
                h->weighing.edible = span_scale(h->weighing.edible, by);
                h->weighing.grams = span_scale(h->weighing.grams, by);
            }
}

/* twice of everything: for twice as many all is as it was, for as many nothing is better */
static void
check_doubling(struct made *m, uint64_t seed)
{
    const struct phase_stand before = made_stand(m);
    const double portions = m->dish.portions.mid;
    scale_dish(m, 2);
    const struct phase_stand doubled = made_stand(m);
    made_portions(m, portions * 2);
    const struct phase_stand same = made_stand(m);
    holds(seed, doubled.standing >= before.standing);
    holds(seed, doubled.best_standing >= before.best_standing);
    holds(seed, same.standing == before.standing || is_near_threshold(&before));
}

static void
doubling_betters_nothing(void **state)
{
    (void)state;
    each_dish(check_doubling);
}

static void
check_order(struct made *m, uint64_t seed)
{
    const struct phase_stand before = made_stand(m);
    for (size_t i = 0, j = m->dish.count - 1; i < j; i++, j--) {
        const struct ingredient one = m->dish.ingredients[i];
        m->dish.ingredients[i] = m->dish.ingredients[j];
        m->dish.ingredients[j] = one;
    }
    const struct phase_stand after = made_stand(m);
    holds(seed, after.standing == before.standing || is_near_threshold(&before));
    holds(seed, after.best_standing == before.best_standing || is_near_threshold(&before));
    holds(seed, after.limit_count == before.limit_count);
}

static void
order_is_no_matter(void **state)
{
    (void)state;
    each_dish(check_order);
}

/* a line weighed to the gram, or the same on two lines */
static void
check_splitting(struct made *m, uint64_t seed)
{
    struct helping *h = &m->dish.ingredients[0].options[0].helpings[0];
    if (m->dish.ingredients[0].option_count > 1 || m->dish.ingredients[0].optional ||
        h->weighing.unmeasured || m->dish.count == MADE_INGREDIENTS_MOST)
        return;
    const double grams = h->eaten.mid;
    *h = made_weighed(m, h->food->id, span_exact(grams));
    const struct phase_stand before = made_stand(m);
    *h = made_weighed(m, h->food->id, span_exact(grams * 0.3));
    made_line(m, h->food->id, grams * 0.7);
    const struct phase_stand after = made_stand(m);
    holds(seed, after.standing == before.standing || is_near_threshold(&before));
    holds(seed, after.limit_count == before.limit_count);
}

static void
splitting_a_line_changes_nothing(void **state)
{
    (void)state;
    each_dish(check_splitting);
}

static void
check_adding(struct made *m, uint64_t seed)
{
    const struct phase_stand before = made_stand(m);
    uint64_t running = seed ^ 0x5DEECE66DULL;
    if (m->dish.count == MADE_INGREDIENTS_MOST)
        return;
    made_option(m, made_ingredient(m, false), random_helping(m, &running));
    const struct phase_stand after = made_stand(m);
    holds(seed, after.standing >= before.standing || is_near_threshold(&before));
    holds(seed, after.best_standing >= before.best_standing || is_near_threshold(&before));
}

static void
adding_a_food_betters_nothing(void **state)
{
    (void)state;
    each_dish(check_adding);
}

/* one limit after the other half as large again: nothing stands worse */
static void
check_limits(struct made *m, uint64_t seed)
{
    struct phase *p = &m->tables.limits.phases[0];
    const struct phase_stand before = made_stand(m);
    const struct phase was = *p;
    for (enum group g = 0; g < GROUPS; g++) {
        struct limit *l = &p->groups[g];
        l->grams.span = span_scale(l->grams.span, 1.5);
        l->fresh_produce.span = span_scale(l->fresh_produce.span, 1.5);
        for (enum food_class c = 0; c < CLASSES; c++)
            l->by_class[c].span = span_scale(l->by_class[c].span, 1.5);
        const struct phase_stand after = made_stand(m);
        holds(seed, after.standing <= before.standing);
        holds(seed, after.best_standing <= before.best_standing);
        *p = was;
    }
    p->sitting.span = span_scale(p->sitting.span, 1.5);
    const struct phase_stand after = made_stand(m);
    *p = was;
    holds(seed, after.standing <= before.standing);
}

static void
raising_a_limit_worsens_nothing(void **state)
{
    (void)state;
    each_dish(check_limits);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(worst_and_best_agree_with_enumeration),
        cmocka_unit_test(settled_choices_stand_as_they_say),
        cmocka_unit_test(doubling_betters_nothing),
        cmocka_unit_test(order_is_no_matter),
        cmocka_unit_test(splitting_a_line_changes_nothing),
        cmocka_unit_test(adding_a_food_betters_nothing),
        cmocka_unit_test(raising_a_limit_worsens_nothing),
    };
    return cmocka_run_group_tests_name("properties", tests, NULL, NULL);
}
