/* Portions worked by hand. Each case says its steps; cut-offs are those of Varney et al. 2017 (see
 * made_dish.h), contents those of the publication beside the food. */
#include "made_dish.h"

/* Muir et al. 2007 (compilation) and 2009, Lee 2015, as stated beside each row; `none` rows are
 * foods without the group by definition of the test. */
static const char foods[] =
    "foods:\n"
    /* garlic: fructan 9.8-17.4 g (Muir 2007) */
    "  garlic: {name: garlic, class: vegetable, fresh: yes, forms: {whole: {pieces: {clove: {mid: "
    "3, source: sr28 11215, basis: published}}}}, per-100-g: {lactose: &n {mid: 0, source: t, "
    "basis: calculated}, excess-fructose: *n, fructan: {low: 9.8, mid: 13.6, high: 17.4, source: "
    "muir2007, basis: published}, galacto-oligosaccharide: *n, sorbitol: *n, mannitol: *n}}\n"
    /* leek, whole: fructan 0.5-3 g (Muir 2007) */
    "  leek: {name: leek, class: vegetable, fresh: yes, forms: {whole: {}}, per-100-g: {lactose: "
    "*n, excess-fructose: *n, fructan: {low: 0.5, mid: 1.75, high: 3, source: muir2007, basis: "
    "published}, galacto-oligosaccharide: *n, sorbitol: *n, mannitol: *n}}\n"
    /* beetroot: fructan 0.4 (Muir 2007), galacto-oligosaccharide 0.1 (Muir 2009) */
    "  beetroot: {name: beetroot, class: vegetable, fresh: yes, forms: {whole: {}}, per-100-g: "
    "{lactose: *n, excess-fructose: *n, fructan: {mid: 0.4, source: muir2007, basis: published}, "
    "galacto-oligosaccharide: {mid: 0.1, source: muir2009, basis: published}, sorbitol: *n, "
    "mannitol: *n}}\n"
    /* chickpeas: galacto-oligosaccharide 1.2 (Muir 2009); fructan none for the test */
    "  chickpeas: {name: chickpeas, class: legume, forms: {whole: {}}, per-100-g: {lactose: *n, "
    "excess-fructose: *n, fructan: *n, galacto-oligosaccharide: {mid: 1.2, source: muir2009, "
    "basis: published}, sorbitol: *n, mannitol: *n}}\n"
    /* rye flour: fructan 0.5-1.5 (Muir 2007); a grain */
    "  rye: {name: rye, class: grain, forms: {whole: {}}, per-100-g: {lactose: *n, "
    "excess-fructose: *n, fructan: {low: 0.5, mid: 1, high: 1.5, source: muir2007, basis: "
    "published}, galacto-oligosaccharide: *n, sorbitol: *n, mannitol: *n}}\n"
    /* invented, to try the rules: a fresh fruit with nothing but excess fructose */
    "  plain-fruit: {name: plain fruit, class: fruit, fresh: yes, forms: {whole: {}}, per-100-g: "
    "{lactose: *n, excess-fructose: {mid: 0.5, source: t, basis: calculated}, fructan: *n, "
    "galacto-oligosaccharide: *n, sorbitol: *n, mannitol: *n}}\n"
    /* none detected, up to 0.05: no fructan is present beside the fructose */
    "  cress: {name: cress, class: vegetable, fresh: yes, forms: {whole: {}}, per-100-g: {lactose: "
    "*n, excess-fructose: *n, fructan: {low: 0, mid: 0, high: 0.05, source: t, basis: memory}, "
    "galacto-oligosaccharide: *n, sorbitol: *n, mannitol: *n}}\n"
    "  dry-fruit: {name: dry fruit, class: fruit, forms: {whole: {}}, per-100-g: {lactose: *n, "
    "excess-fructose: {mid: 0.5, source: t, basis: calculated}, fructan: *n, "
    "galacto-oligosaccharide: *n, sorbitol: *n, mannitol: *n}}\n"
    "  milk: {name: milk, class: dairy, forms: {whole: {}}, per-100-g: {lactose: {mid: 5, source: "
    "t, basis: calculated}, excess-fructose: *n, fructan: *n, galacto-oligosaccharide: *n, "
    "sorbitol: *n, mannitol: *n}}\n"
    "  plum: {name: plum, class: fruit, fresh: yes, forms: {whole: {}}, per-100-g: {lactose: *n, "
    "excess-fructose: *n, fructan: *n, galacto-oligosaccharide: *n, sorbitol: {mid: 0.8, source: "
    "t, basis: calculated}, mannitol: {mid: 0.1, source: t, basis: calculated}}}\n"
    "  total-only: {name: total only, class: vegetable, forms: {whole: {}}, per-100-g: {lactose: "
    "*n, excess-fructose: *n, oligosaccharides: {mid: 0.3, source: t, basis: calculated}, "
    "sorbitol: *n, mannitol: *n}}\n"
    "  salt: {name: salt, class: other, forms: {whole: {}}, per-100-g: {all: *n}}\n"
    "  untested: {name: untested, class: vegetable, forms: {whole: {}}}\n"
    "  half-tested: {name: half tested, class: vegetable, forms: {whole: {}}, per-100-g: {lactose: "
    "*n, excess-fructose: *n, fructan: *n, sorbitol: *n, mannitol: *n}}\n"
    /* made with milk, nobody knows with how much */
    "  gratin: {name: gratin, class: vegetable, allergens: [milk], forms: {whole: {}}}\n"
    "  odd: {name: odd, class: nut, forms: {whole: {}}, per-100-g: {lactose: *n, excess-fructose: "
    "*n, fructan: *n, galacto-oligosaccharide: *n, mannitol: *n}}\n"
    /* blueberries: 40 g as common practice; no content */
    "  blueberries: {name: blueberries, class: fruit, fresh: yes, forms: {whole: {}}, "
    "tested-serve: {mid: 40, group: fructan, source: common practice, basis: practice}}\n"
    /* its serve of 40 g would carry 0.8 g by the composition: four times the limit */
    "  contradiction: {name: contradiction, class: fruit, fresh: yes, forms: {whole: {}}, "
    "per-100-g: {lactose: *n, excess-fructose: *n, fructan: {mid: 2, source: t, basis: "
    "calculated}, galacto-oligosaccharide: *n, sorbitol: *n, mannitol: *n}, tested-serve: {mid: "
    "40, group: fructan, source: t, basis: practice}}\n"
    "  milder: {name: milder, class: fruit, fresh: yes, forms: {whole: {}}, per-100-g: {lactose: "
    "*n, excess-fructose: *n, fructan: *n, galacto-oligosaccharide: *n, sorbitol: *n, mannitol: "
    "*n}, tested-serve: {mid: 40, group: fructan, source: t, basis: practice}}\n";

/* every step of a portion of one food */
static const struct worked {
    const char *food;
    double grams, portions; /* edible in the dish */
    enum group group;
    double low, mid, high; /* load in g = grams / portions x content / 100 */
    double limit;          /* g, published */
    double share_mid, share_high;
    enum standing standing;
} worked[] = {
    /* 6 g / 4 = 1.5 g; x 9.8, 13.6, 17.4 % = 0.147, 0.204, 0.261 g; / 0.20 = 1.02, 1.305 */
    {"garlic", 6, 4, FRUCTAN, 0.147, 0.204, 0.261, 0.20, 1.02, 1.305, STANDING_OVER},
    /* 4 g / 4 = 1 g; 0.098, 0.136, 0.174 g; / 0.20 = 0.68, 0.87 */
    {"garlic", 4, 4, FRUCTAN, 0.098, 0.136, 0.174, 0.20, 0.68, 0.87, STANDING_WITHIN},
    /* 40 g / 4 = 10 g; 0.05, 0.175, 0.30; / 0.20 = 0.875, 1.5 */
    {"leek", 40, 4, FRUCTAN, 0.05, 0.175, 0.30, 0.20, 0.875, 1.5, STANDING_MAY_EXCEED},
    /* 30 g: 0.4 % = 0.12 g and 0.1 % = 0.03 g, together 0.15 g; / 0.20 = 0.75 */
    {"beetroot", 30, 1, OLIGOSACCHARIDES, 0.15, 0.15, 0.15, 0.20, 0.75, 0.75, STANDING_WITHIN},
    /* 40 g is exactly at the limit: 0.16 + 0.04 = 0.20 g; close, not over */
    {"beetroot", 40, 1, OLIGOSACCHARIDES, 0.20, 0.20, 0.20, 0.20, 1.0, 1.0, STANDING_CLOSE},
    /* legumes have the larger allowance: 80 g / 4 = 20 g; 1.2 % = 0.24 g; / 0.30 = 0.80: close */
    {"chickpeas", 80, 4, OLIGOSACCHARIDES, 0.24, 0.24, 0.24, 0.30, 0.8, 0.8, STANDING_CLOSE},
    /* grains too: 75 g / 3 = 25 g; 0.125, 0.25, 0.375; / 0.30 = 0.8333, 1.25 */
    {"rye", 75, 3, FRUCTAN, 0.125, 0.25, 0.375, 0.30, 0.833333, 1.25, STANDING_MAY_EXCEED},
    /* 60 g / 2 = 30 g; 0.8 % = 0.24 g of sorbitol; / 0.20 = 1.2 */
    {"plum", 60, 2, SORBITOL, 0.24, 0.24, 0.24, 0.20, 1.2, 1.2, STANDING_OVER},
    /* the same with its 0.1 % of mannitol: 0.27 g of polyols; / 0.40 = 0.675 */
    {"plum", 60, 2, POLYOLS, 0.27, 0.27, 0.27, 0.40, 0.675, 0.675, STANDING_WITHIN},
    /* 100 mL of milk of 1 g/mL, five in a hundred lactose, for four: 1.25 g; / 1.0 = 1.25 */
    {"milk", 100, 4, LACTOSE, 1.25, 1.25, 1.25, 1.0, 1.25, 1.25, STANDING_OVER},
    /* fresh, and nothing but excess fructose: 60 g x 0.5 % = 0.30 g; / 0.40 = 0.75 */
    {"plain-fruit", 60, 1, EXCESS_FRUCTOSE, 0.30, 0.30, 0.30, 0.40, 0.75, 0.75, STANDING_WITHIN},
    /* dried: 0.30 g / 0.15 = 2.0 */
    {"dry-fruit", 60, 1, EXCESS_FRUCTOSE, 0.30, 0.30, 0.30, 0.15, 2.0, 2.0, STANDING_OVER},
    /* only the total is published: 50 g x 0.3 % = 0.15 g; / 0.20 = 0.75 */
    {"total-only", 50, 1, OLIGOSACCHARIDES, 0.15, 0.15, 0.15, 0.20, 0.75, 0.75, STANDING_WITHIN},
};

static void
agrees_with_portions_worked_by_hand(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof worked / sizeof *worked; i++) {
        const struct worked *w = &worked[i];
        struct made *m = made_open(foods);
        made_line(m, w->food, w->grams);
        made_portions(m, w->portions);
        struct phase_stand s = made_stand(m);
        const struct group_stand *g = &s.groups[w->group];
        assert_near(g->load.low, w->low, 1e-6);
        assert_near(g->load.mid, w->mid, 1e-6);
        assert_near(g->load.high, w->high, 1e-6);
        assert_near(g->limit, w->limit, 1e-9);
        assert_near(g->share.mid, w->share_mid, 1e-5);
        assert_near(g->share.high, w->share_high, 1e-5);
        if (g->standing != w->standing)
            fail_msg("%s: %s, not %s", w->food, standing_word(g->standing),
                     standing_word(w->standing));
        assert_int_equal(g->chief, 0);
        assert_near(g->chief_share, 1, 1e-9);
        made_close(m);
    }
}

/* leek 20 g: 0.35 g x ... per portion of 4: 5 g x 1.75 % = 0.0875 g / 0.20 = 0.4375
 * rye 60 g: 15 g x 1 % = 0.15 g / 0.30 = 0.5; together 0.9375 of the fructan limit
 * 0.0875 + 0.15 = 0.2375 g of the sitting's 0.5 = 0.475 */
static void
stacks_shares_of_different_classes(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    made_line(m, "leek", 20);
    made_line(m, "rye", 60);
    made_line(m, "salt", 10);
    made_portions(m, 4);
    struct phase_stand s = made_stand(m);
    assert_near(s.groups[FRUCTAN].share.mid, 0.9375, 1e-9);
    assert_near(s.groups[FRUCTAN].load.mid, 0.2375, 1e-9);
    assert_int_equal(s.groups[FRUCTAN].chief, 1);
    assert_near(s.groups[FRUCTAN].chief_share, 0.5 / 0.9375, 1e-5);
    assert_near(s.sitting.mid, 0.2375, 1e-9);
    assert_near(s.sitting_share.mid, 0.475, 1e-9);
    assert_false(s.groups[LACTOSE].carried);
    assert_false(s.groups[LACTOSE].limited);
    made_close(m);
}

/* every group within: 0.18 g of galacto-oligosaccharide (0.6), 0.10 of fructose (0.667), 0.152 of
 * sorbitol (0.76), 0.019 of mannitol, 0.75 of lactose; without the lactose 0.451 of 0.5 g: 0.902 */
static void
adds_up_a_sitting_without_lactose(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    made_line(m, "chickpeas", 15);
    made_line(m, "dry-fruit", 20);
    made_line(m, "plum", 19);
    made_line(m, "milk", 15);
    made_portions(m, 1);
    struct phase_stand s = made_stand(m);
    for (enum group g = 0; g < GROUPS; g++)
        assert_int_equal(s.groups[g].standing, STANDING_WITHIN);
    assert_near(s.sitting.mid, 0.18 + 0.10 + 0.152 + 0.019, 1e-9);
    assert_int_equal(s.sitting_standing, STANDING_CLOSE);
    made_line(m, "chickpeas", 5); /* 0.06 g more: 0.24 / 0.30 = 0.8; sitting 0.511 / 0.5 */
    s = made_stand(m);
    assert_int_equal(s.sitting_standing, STANDING_OVER);
    assert_int_equal(s.groups[OLIGOSACCHARIDES].standing, STANDING_CLOSE);
    assert_int_equal(s.standing, STANDING_OVER);
    made_close(m);
}

static void
gives_fresh_produce_its_allowance_only_alone(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    made_line(m, "plain-fruit", 60);
    made_portions(m, 1);
    struct phase_stand s = made_stand(m);
    assert_true(s.groups[EXCESS_FRUCTOSE].fresh_allowance);
    made_line(m, "cress", 20);
    s = made_stand(m);
    assert_true(s.groups[EXCESS_FRUCTOSE].fresh_allowance);
    /* 1 g of leek carries a little fructan: the smaller allowance, 0.30 / 0.15 = 2 */
    made_line(m, "leek", 1);
    s = made_stand(m);
    assert_false(s.groups[EXCESS_FRUCTOSE].fresh_allowance);
    assert_near(s.groups[EXCESS_FRUCTOSE].share.mid, 2, 1e-9);
    assert_int_equal(s.standing, STANDING_OVER);
    /* where the leek is optional the worst way counts, and the best keeps the allowance */
    m->dish.ingredients[2].optional = true;
    s = made_stand(m);
    assert_near(s.groups[EXCESS_FRUCTOSE].share.mid, 2, 1e-9);
    assert_near(s.groups[EXCESS_FRUCTOSE].best_share.mid, 0.75, 1e-9);
    assert_int_equal(s.best_standing, STANDING_WITHIN);
    made_close(m);
}

static void
takes_what_has_no_figure_as_unknown(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    made_line(m, "salt", 5);
    made_line(m, "untested", 100);
    made_portions(m, 2);
    struct phase_stand s = made_stand(m);
    assert_int_equal(s.standing, STANDING_UNKNOWN);
    assert_true(s.groups[FRUCTAN].unknown);
    assert_int_equal(s.groups[FRUCTAN].unknown_ingredient, 1);
    /* a known excess outweighs it */
    made_line(m, "garlic", 20);
    s = made_stand(m);
    assert_int_equal(s.standing, STANDING_OVER);
    assert_true(s.groups[FRUCTAN].unknown);
    made_close(m);
    /* a food that is not in the larder at all */
    m = made_open(foods);
    made_line(m, "moon dust", 1);
    made_portions(m, 1);
    assert_int_equal(made_stand(m).standing, STANDING_UNKNOWN);
    made_close(m);
}

/* the highest fructan of a vegetable here is garlic's 17.4 %: 1 g of an untested vegetable for 4
 * can add 0.25 x 17.4 % = 0.0435 g, 0.2175 of the limit at most. 5 g could pass it: 1.0875 */
static void
lets_a_trace_pass(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    made_line(m, "half-tested", 10);
    made_portions(m, 4);
    struct phase_stand s = made_stand(m);
    /* only its galacto-oligosaccharide is unknown; a vegetable's most is beetroot's 0.1 %: 2.5 g
     * x 0.1 % = 0.0025 g; / 0.20 = 0.0125 */
    assert_int_equal(s.standing, STANDING_WITHIN);
    assert_false(s.groups[GALACTO_OLIGOSACCHARIDE].unknown);
    assert_near(s.groups[GALACTO_OLIGOSACCHARIDE].trace_share, 0.0125, 1e-9);
    assert_int_equal(s.groups[GALACTO_OLIGOSACCHARIDE].unknown_ingredient, SIZE_MAX);
    made_close(m);
    m = made_open(foods);
    made_line(m, "untested", 5);
    made_portions(m, 1);
    assert_true(made_stand(m).groups[FRUCTAN].unknown); /* 5 x 17.4 % = 0.87 g */
    made_close(m);
    /* nobody has a figure for a nut's sorbitol: no bound, however little it is */
    m = made_open(foods);
    made_line(m, "odd", 0.01);
    made_portions(m, 1);
    assert_true(made_stand(m).groups[SORBITOL].unknown);
    made_close(m);
}

/* other vegetables hold no lactose; of what milk went into, the milk's 5 % is the bound: 4 g brings
 * 0.2 g of 1 g, and 25 g could bring 1.25 g */
static void
bounds_lactose_by_milk_where_milk_went_in(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    made_line(m, "gratin", 4);
    made_portions(m, 1);
    struct phase_stand s = made_stand(m);
    assert_false(s.groups[LACTOSE].unknown);
    assert_near(s.groups[LACTOSE].trace_share, 0.2, 1e-9);
    made_line(m, "gratin", 21);
    assert_true(made_stand(m).groups[LACTOSE].unknown);
    made_close(m);
}

/* a trace that can carry a stack over the limit matters: beetroot 38 g stands at 0.95, and what
 * 20 g of the half-tested could add is 0.02 g of 0.20: 0.1 */
static void
counts_traces_on_top_of_what_is_known(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    made_line(m, "beetroot", 38);
    made_portions(m, 1);
    assert_int_equal(made_stand(m).standing, STANDING_CLOSE);
    made_line(m, "half-tested", 4); /* 0.004 g: 0.02 */
    assert_int_equal(made_stand(m).standing, STANDING_CLOSE);
    made_line(m, "half-tested", 16); /* 0.08 more */
    assert_int_equal(made_stand(m).standing, STANDING_UNKNOWN);
    made_close(m);
}

static void
minds_amounts_that_are_not_given(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    made_line(m, "salt", 5);
    made_portions(m, 1);
    struct helping *salt = &m->dish.ingredients[0].options[0].helpings[0];
    salt->weighing.known = false;
    salt->weighing.unmeasured = true;
    salt->eaten = span_exact(0);
    assert_int_equal(made_stand(m).standing, STANDING_WITHIN); /* none in any amount */
    made_line(m, "beetroot", 16);                              /* 0.4 */
    struct helping *beetroot = &m->dish.ingredients[1].options[0].helpings[0];
    beetroot->weighing.unmeasured = true; /* plus extra: at most as much again, 0.8 */
    assert_int_equal(made_stand(m).standing, STANDING_WITHIN);
    beetroot->eaten = beetroot->weighing.edible = span_exact(24); /* 0.6, and 1.2 */
    assert_int_equal(made_stand(m).standing, STANDING_UNKNOWN);
    beetroot->weighing.known = false;
    assert_int_equal(made_stand(m).standing, STANDING_UNKNOWN);
    made_close(m);
}

static void
goes_by_a_tested_serve(void **state)
{
    (void)state;
    static const struct {
        double grams, share;
        enum standing standing;
    } serves[] = {{40, 1.0, STANDING_CLOSE}, {30, 0.75, STANDING_WITHIN}, {44, 1.1, STANDING_OVER}};
    for (size_t i = 0; i < 3; i++) {
        struct made *m = made_open(foods);
        made_line(m, "blueberries", serves[i].grams);
        made_portions(m, 1);
        struct phase_stand s = made_stand(m);
        assert_near(s.groups[FRUCTAN].share.mid, serves[i].share, 1e-9);
        assert_int_equal(s.groups[FRUCTAN].standing, serves[i].standing);
        assert_int_equal(s.standing, serves[i].standing);
        /* a reader's threefold fructan limit widens the serve threefold */
        struct phase_stand wider;
        portion_stand(m->arena, &m->dish, &m->tables, 1, &m->reads, &wider);
        assert_near(wider.groups[FRUCTAN].share.mid, serves[i].share / 3, 1e-9);
        made_close(m);
    }
}

static void
takes_the_stricter_of_serve_and_composition(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    size_t count;
    made_line(m, "contradiction", 20); /* 0.4 g of 0.20: 2; by the serve only 0.5 */
    made_line(m, "milder", 20);        /* composition says nothing at all; the serve 0.5 */
    made_portions(m, 1);
    struct helping_load *loads =
        portion_loads(m->arena, &m->dish, &m->tables, 0, &m->reads, &count);
    assert_int_equal(count, 2);
    assert_true(loads[0].serve_disagrees);
    assert_false(loads[0].serve_used);
    assert_near(loads[0].columns[FRUCTAN].share.mid, 2, 1e-9);
    assert_true(loads[1].serve_disagrees);
    assert_true(loads[1].serve_used);
    assert_near(loads[1].columns[FRUCTAN].share.mid, 0.5, 1e-9);
    assert_near(loads[1].columns[OLIGOSACCHARIDES].share.mid, 0.5, 1e-9);
    made_close(m);
}

static void
heeds_a_readers_own_limits(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    made_line(m, "milk", 100); /* 5 g of lactose: lifted for this reader */
    made_line(m, "leek", 20);  /* 0.35 g of 0.20: 1.75; of 0.60: 0.583 */
    made_portions(m, 1);
    struct phase_stand s;
    portion_stand(m->arena, &m->dish, &m->tables, 1, &m->reads, &s);
    assert_false(s.groups[LACTOSE].limited);
    assert_int_equal(s.groups[LACTOSE].standing, STANDING_WITHIN);
    assert_near(s.groups[LACTOSE].load.mid, 5, 1e-9);
    assert_near(s.groups[FRUCTAN].share.mid, 0.35 / 0.60, 1e-9);
    assert_true(s.sitting_limited); /* that of the phase it is based on */
    made_close(m);
}

/* leek 20 g: 0.35 g of oligosaccharides of the 0.5 g of a sitting, unless the reader lifted them */
static void
leaves_what_is_lifted_out_of_the_sitting(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    made_line(m, "leek", 20);
    made_portions(m, 1);
    const struct phase_stand held = made_stand(m);
    assert_true(held.sitting_limited && held.sitting.mid >= 0.35 - 1e-9);
    m->tables.limits.phases[0].groups[OLIGOSACCHARIDES].lifted = true;
    assert_near(made_stand(m).sitting.mid, held.sitting.mid - 0.35, 1e-9);
    made_close(m);
}

static void
says_unknown_where_portions_are_not_known(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    made_line(m, "leek", 100);
    assert_int_equal(made_stand(m).standing, STANDING_UNKNOWN);
    /* but if the whole dish is within, so is any part of it */
    m->dish.ingredients[0].options[0].helpings[0] = made_weighed(m, "leek", span_exact(4));
    assert_int_equal(made_stand(m).standing, STANDING_WITHIN);
    made_close(m);
}

static bool
was_read(const struct made *m, const char *key)
{
    return reads_hold(&m->reads, slice_of(key));
}

/* so that a change of one limit reaches only the posts that carry its group */
static void
reads_only_limits_that_matter(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    made_line(m, "leek", 10);
    made_line(m, "salt", 10);
    made_portions(m, 1);
    made_stand(m);
    assert_true(was_read(m, "limit:strict/fructan"));
    assert_true(was_read(m, "limit:strict/oligosaccharides"));
    assert_true(was_read(m, "limit:strict/sitting"));
    assert_true(was_read(m, "food:leek/fructan"));
    assert_true(was_read(m, "food:leek/lactose"));
    assert_false(was_read(m, "limit:strict/lactose"));
    assert_false(was_read(m, "limit:strict/sorbitol"));
    assert_false(was_read(m, "limit:strict/excess-fructose"));
    made_close(m);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(agrees_with_portions_worked_by_hand),
        cmocka_unit_test(stacks_shares_of_different_classes),
        cmocka_unit_test(adds_up_a_sitting_without_lactose),
        cmocka_unit_test(gives_fresh_produce_its_allowance_only_alone),
        cmocka_unit_test(takes_what_has_no_figure_as_unknown),
        cmocka_unit_test(lets_a_trace_pass),
        cmocka_unit_test(bounds_lactose_by_milk_where_milk_went_in),
        cmocka_unit_test(counts_traces_on_top_of_what_is_known),
        cmocka_unit_test(minds_amounts_that_are_not_given),
        cmocka_unit_test(goes_by_a_tested_serve),
        cmocka_unit_test(takes_the_stricter_of_serve_and_composition),
        cmocka_unit_test(heeds_a_readers_own_limits),
        cmocka_unit_test(leaves_what_is_lifted_out_of_the_sitting),
        cmocka_unit_test(says_unknown_where_portions_are_not_known),
        cmocka_unit_test(reads_only_limits_that_matter),
    };
    return cmocka_run_group_tests_name("portion", tests, NULL, NULL);
}
