/* What must hold of any dish, tried on thousands of random ones. A failure prints its seed;
 * DARIOLE_SEED tries that one. */
#include "made_dish.h"

#include "reckon/choices.h"

enum { DISHES = 3000, FOODS = 14 };

static const char *const known_foods[FOODS] = {
    "grain-f", "legume-g", "veg-fg", "fruit-x", "fruit-x2", "fruit-xs", "veg-m",
    "dairy-l", "dry-x",    "nil",    "veg-t",   "no-gos",   "nothing",  "served"};

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
    "  nothing: {name: b4, class: vegetable, forms: {whole: {}}}\n"
    "  served: {name: b5, class: fruit, fresh: yes, forms: {whole: {}}, tested-serve: {mid: 40, "
    "group: fructan, source: t, basis: practice}}\n";

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
settled(struct made *m, const size_t *picks)
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

struct extremes {
    struct span load[GROUPS], least_load[GROUPS], share[GROUPS], least_share[GROUPS];
    struct span sitting;
    enum standing worst[GROUPS], best[GROUPS], whole_worst, whole_best;
    size_t count;
};

static struct span
span_extreme(struct span a, struct span b, double sign)
{
    return (struct span){sign * fmax(sign * a.low, sign * b.low),
                         sign * fmax(sign * a.mid, sign * b.mid),
                         sign * fmax(sign * a.high, sign * b.high)};
}

static void
extremes_add(struct extremes *e, const struct phase_stand *s)
{
    const bool first = e->count++ == 0;
    for (enum group g = 0; g < GROUPS; g++) {
        const struct group_stand *k = &s->groups[g];
        e->load[g] = first ? k->load : span_extreme(e->load[g], k->load, 1);
        e->least_load[g] = first ? k->load : span_extreme(e->least_load[g], k->load, -1);
        e->share[g] = first ? k->share : span_extreme(e->share[g], k->share, 1);
        e->least_share[g] = first ? k->share : span_extreme(e->least_share[g], k->share, -1);
        e->worst[g] = first || k->standing > e->worst[g] ? k->standing : e->worst[g];
        e->best[g] = first || k->standing < e->best[g] ? k->standing : e->best[g];
    }
    e->sitting = first ? s->sitting : span_extreme(e->sitting, s->sitting, 1);
    e->whole_worst = first || s->standing > e->whole_worst ? s->standing : e->whole_worst;
    e->whole_best = first || s->standing < e->whole_best ? s->standing : e->whole_best;
}

#define agree(seed, what, a, b)                                                                 \
    do {                                                                                        \
        struct span a_ = (a), b_ = (b);                                                         \
        if (fabs(a_.low - b_.low) > 1e-9 || fabs(a_.mid - b_.mid) > 1e-9 ||                     \
            fabs(a_.high - b_.high) > 1e-9)                                                     \
            fail_msg("seed %llu: %s is %g %g %g, by enumeration %g %g %g (line %d)",            \
                     (unsigned long long)(seed), what, a_.low, a_.mid, a_.high, b_.low, b_.mid, \
                     b_.high, __LINE__);                                                        \
    } while (0)

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

/* A variant that alone is a trace in the dish may be none beside other traces, which are judged
 * over the whole dish: those few dishes in which it makes a difference to the fresh allowance are
 * compared by sheet instead, in enumerates_the_sheet. */
static bool
has_unknown(const struct made *m)
{
    for (size_t i = 0; i < m->dish.count; i++)
        for (size_t o = 0; o < m->dish.ingredients[i].option_count; o++)
            for (size_t k = 0; k < m->dish.ingredients[i].options[o].count; k++) {
                const struct helping *h = &m->dish.ingredients[i].options[o].helpings[k];
                for (enum group g = 0; g < GROUPS; g++)
                    if (g != OLIGOSACCHARIDES && g != POLYOLS &&
                        !figure_known(&h->food->contents[g]))
                        return true;
                if (h->weighing.unmeasured)
                    return true;
            }
    return false;
}

static void
check_enumeration(struct made *m, uint64_t seed)
{
    size_t picks[MADE_INGREDIENTS_MOST];
    for (size_t i = 0; i < m->dish.count; i++)
        picks[i] = m->dish.ingredients[i].optional ? 0 : 1;
    struct extremes e = {.count = 0};
    do {
        struct dish d = settled(m, picks);
        struct phase_stand s;
        portion_stand(m->arena, &d, &m->tables, 0, NULL, &s);
        extremes_add(&e, &s);
    } while (next_picks(m, picks));
    struct phase_stand s = made_stand(m);
    const bool unknown = has_unknown(m);
    for (enum group g = 0; g < GROUPS; g++) {
        agree(seed, group_word(g), s.groups[g].load, e.load[g]);
        agree(seed, group_word(g), s.groups[g].best_load, e.least_load[g]);
        if (g == EXCESS_FRUCTOSE && unknown)
            continue;
        agree(seed, group_word(g), s.groups[g].share, e.share[g]);
        agree(seed, group_word(g), s.groups[g].best_share, e.least_share[g]);
        holds(seed, s.groups[g].standing == e.worst[g]);
        /* beyond 64 variants the best is one that was found, and need not be the very best */
        holds(seed, e.count > 64 ? s.groups[g].best_standing >= e.best[g]
                                 : s.groups[g].best_standing == e.best[g]);
    }
    agree(seed, "sitting", s.sitting, e.sitting);
    if (unknown)
        return;
    holds(seed, s.standing == e.whole_worst);
    holds(seed, e.count > 64 ? s.best_standing >= e.whole_best : s.best_standing == e.whole_best);
}

static void
range_over_choices_equals_enumeration(void **state)
{
    (void)state;
    each_dish(check_enumeration);
}

struct sheet_extremes {
    struct extremes e;
    struct span share[COLUMNS];
    size_t count;
};

static void
sheet_extremes_add(void *ctx, const uint8_t *ways, const struct variant_stand *v)
{
    struct sheet_extremes *s = ctx;
    (void)ways;
    for (size_t c = 0; c < COLUMNS; c++)
        s->share[c] = s->count == 0 ? v->share[c] : span_extreme(s->share[c], v->share[c], 1);
    if (s->count == 0 || v->standing > s->e.whole_worst)
        s->e.whole_worst = v->standing;
    if (s->count++ == 0 || v->standing < s->e.whole_best)
        s->e.whole_best = v->standing;
}

static void
check_sheet(struct made *m, uint64_t seed)
{
    struct sheet sheet;
    sheet_lay(m->arena, &m->dish, &m->tables, 0, NULL, &sheet);
    struct sheet_extremes e = {.count = 0};
    variant_each(m->arena, &sheet, sheet_extremes_add, &e);
    struct phase_stand s = made_stand(m);
    for (enum group g = 0; g < GROUPS; g++)
        agree(seed, group_word(g), s.groups[g].share, e.share[g]);
    agree(seed, "sitting", s.sitting_share, e.share[SITTING]);
    holds(seed, s.standing == e.e.whole_worst);
    if (e.count <= 64)
        holds(seed, s.best_standing == e.e.whole_best);
    holds(seed, (double)e.count == variant_count(&sheet));
}

static void
range_equals_enumeration_of_the_sheet_with_unknowns(void **state)
{
    (void)state;
    each_dish(check_sheet);
}

static void
check_scaling(struct made *m, uint64_t seed)
{
    struct phase_stand before = made_stand(m);
    for (size_t i = 0; i < m->dish.count; i++)
        for (size_t o = 0; o < m->dish.ingredients[i].option_count; o++)
            for (size_t k = 0; k < m->dish.ingredients[i].options[o].count; k++) {
                struct helping *h = &m->dish.ingredients[i].options[o].helpings[k];
                h->eaten = span_scale(h->eaten, 3);
            }
    m->dish.portions = span_scale(m->dish.portions, 3);
    struct phase_stand after = made_stand(m);
    holds(seed, before.standing == after.standing);
    for (enum group g = 0; g < GROUPS; g++) {
        agree(seed, group_word(g), after.groups[g].load, before.groups[g].load);
        agree(seed, group_word(g), after.groups[g].share, before.groups[g].share);
    }
    /* twice the portions: half of every load */
    m->dish.portions = span_scale(m->dish.portions, 2);
    struct phase_stand halved = made_stand(m);
    for (enum group g = 0; g < GROUPS; g++) {
        agree(seed, group_word(g), span_scale(halved.groups[g].load, 2), before.groups[g].load);
        agree(seed, group_word(g), span_scale(halved.groups[g].best_load, 2),
              before.groups[g].best_load);
    }
}

static void
scaling_changes_nothing_and_halving_halves(void **state)
{
    (void)state;
    each_dish(check_scaling);
}

static void
check_adding(struct made *m, uint64_t seed)
{
    struct phase_stand before = made_stand(m);
    uint64_t more = seed ^ 0x5DEECE66DULL;
    made_option(m, made_ingredient(m, false), random_helping(m, &more));
    struct phase_stand after = made_stand(m);
    for (enum group g = 0; g < GROUPS; g++) {
        holds(seed, after.groups[g].load.low >= before.groups[g].load.low - 1e-12);
        holds(seed, after.groups[g].load.mid >= before.groups[g].load.mid - 1e-12);
        holds(seed, after.groups[g].load.high >= before.groups[g].load.high - 1e-12);
        holds(seed, after.groups[g].share.mid >= before.groups[g].share.mid - 1e-12);
    }
    holds(seed, after.standing >= before.standing);
}

static void
adding_a_food_never_lowers_a_load(void **state)
{
    (void)state;
    each_dish(check_adding);
}

static void
check_order(struct made *m, uint64_t seed)
{
    struct phase_stand before = made_stand(m);
    for (size_t i = 0; i < m->dish.count / 2; i++) {
        struct ingredient swap = m->dish.ingredients[i];
        m->dish.ingredients[i] = m->dish.ingredients[m->dish.count - 1 - i];
        m->dish.ingredients[m->dish.count - 1 - i] = swap;
    }
    struct phase_stand after = made_stand(m);
    for (enum group g = 0; g < GROUPS; g++) {
        agree(seed, group_word(g), after.groups[g].load, before.groups[g].load);
        agree(seed, group_word(g), after.groups[g].share, before.groups[g].share);
        holds(seed, after.groups[g].standing == before.groups[g].standing);
    }
    holds(seed, after.standing == before.standing);
    holds(seed, after.best_standing == before.best_standing);
}

static void
order_of_lines_does_not_matter(void **state)
{
    (void)state;
    each_dish(check_order);
}

static void
check_narrowing(struct made *m, uint64_t seed)
{
    struct phase_stand before = made_stand(m);
    for (size_t i = 0; i < m->dish.count; i++) {
        struct span *s = &m->dish.ingredients[i].options[0].helpings[0].eaten;
        *s = span_make((s->low + s->mid) / 2, s->mid, (s->high + s->mid) / 2);
    }
    struct phase_stand after = made_stand(m);
    for (enum group g = 0; g < GROUPS; g++) {
        const struct span a = after.groups[g].load, b = before.groups[g].load;
        holds(seed, a.high <= b.high + 1e-12 && a.low >= b.low - 1e-12);
        holds(seed, fabs(a.mid - b.mid) < 1e-9);
        holds(seed, after.groups[g].share.high <= before.groups[g].share.high + 1e-9);
    }
    holds(seed, after.standing <= before.standing);
}

static void
narrowing_a_span_never_widens_a_result(void **state)
{
    (void)state;
    each_dish(check_narrowing);
}

/* what `settle` says: with these choices settled the worst stands so, and no fewer would do */
static void
check_settle(struct made *m, uint64_t seed)
{
    struct choices c;
    choices_lay(m->arena, &m->dish, &m->tables, 0, NULL, &c);
    holds(seed, c.count == 0 || (double)c.count == c.variant_count);
    enum standing worst = STANDING_WITHIN, best = STANDING_OVER, left = STANDING_WITHIN;
    for (size_t v = 0; v < c.count; v++) {
        const struct variant *one = &c.variants[v];
        bool agrees = true;
        for (size_t k = 0; k < c.settle_count; k++)
            agrees = agrees && one->picks[c.settle[2 * k]] == c.settle[2 * k + 1];
        worst = one->standing > worst ? one->standing : worst;
        best = one->standing < best ? one->standing : best;
        left = agrees && one->standing > left ? one->standing : left;
    }
    if (c.count == 0)
        return;
    holds(seed, c.differ == (worst != best));
    holds(seed, left == c.settled);
    holds(seed, c.settled == best);
    /* none of them can be left open again */
    for (size_t open = 0; open < c.settle_count; open++) {
        enum standing opened = STANDING_WITHIN;
        for (size_t v = 0; v < c.count; v++) {
            bool agrees = true;
            for (size_t k = 0; k < c.settle_count; k++)
                agrees = agrees &&
                         (k == open || c.variants[v].picks[c.settle[2 * k]] == c.settle[2 * k + 1]);
            if (agrees && c.variants[v].standing > opened)
                opened = c.variants[v].standing;
        }
        holds(seed, opened > c.settled);
    }
}

static void
settling_is_enough_and_no_more_than_needed(void **state)
{
    (void)state;
    each_dish(check_settle);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(range_over_choices_equals_enumeration),
        cmocka_unit_test(range_equals_enumeration_of_the_sheet_with_unknowns),
        cmocka_unit_test(scaling_changes_nothing_and_halving_halves),
        cmocka_unit_test(adding_a_food_never_lowers_a_load),
        cmocka_unit_test(order_of_lines_does_not_matter),
        cmocka_unit_test(narrowing_a_span_never_widens_a_result),
        cmocka_unit_test(settling_is_enough_and_no_more_than_needed),
    };
    return cmocka_run_group_tests_name("properties", tests, NULL, NULL);
}
