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
    /* invented: two entries of one food, of unlike class */
    "  bread: {name: bread, class: grain, counts-with: flour, forms: {whole: {}}, per-100-g: {all: "
    "*n, fructan: {mid: 0.5, source: t, basis: calculated}}}\n"
    "  flour: {name: flour, class: other, forms: {whole: {}}, per-100-g: {all: *n, fructan: {mid: "
    "1, source: t, basis: calculated}}}\n"
    "  cream: {name: cream, class: dairy, forms: {whole: {}}, per-100-g: {all: *n, lactose: {mid: "
    "5, source: t, basis: calculated}}}\n"
    "  mixed-fruit: {name: mixed fruit, class: fruit, fresh: yes, forms: {whole: {}}, per-100-g: "
    "{all: *n, excess-fructose: {mid: 0.5, source: t, basis: calculated}, sorbitol: {mid: 0.15, "
    "source: t, basis: calculated}}}\n"
    /* xylitol is a sugar alcohol that is neither sorbitol nor mannitol */
    "  xylitol: {name: xylitol, class: other, forms: {whole: {}}, per-100-g: {all: *n, polyols: "
    "{mid: 99, source: t, basis: calculated}}}\n"
    "  oil: {name: oil, class: other, forms: {whole: {}}, per-100-g: {all: *n}, nutrients: "
    "{source: t, basis: published, fat: 100}}\n"
    "  thyme: {name: thyme, class: other, seasoning: yes, forms: {whole: {}}, per-100-g: {lactose: "
    "*n, excess-fructose: *n, galacto-oligosaccharide: *n, sorbitol: *n, mannitol: *n}}\n"
    "  bounded: {name: bounded, class: vegetable, forms: {whole: {}}, per-100-g: {lactose: *n, "
    "excess-fructose: *n, fructan: *n, sorbitol: *n, mannitol: *n}, bounds: "
    "{galacto-oligosaccharide: {high: 0.4, source: t, basis: published}}}\n";

/* every step of a portion of one food */
static const struct worked {
    const char *food;
    double grams, portions; /* edible in the dish */
    enum group group;
    double mid;   /* load in g = grams / portions x content / 100 */
    double limit; /* g, published */
    double share, chance;
    enum standing standing;
} worked[] = {
    /* 6 g / 4 = 1.5 g; x 13.6 % = 0.204 g; / 0.20 = 1.02. Below the median the log-normal has sigma
     * = ln(13.6 / 9.8) / 1.645 = 0.199; z = ln(1 / 1.02) / 0.199 = -0.0994: a chance of 0.540 */
    {"garlic", 6, 4, FRUCTAN, 0.204, 0.20, 1.02, 0.540, STANDING_OVER},
    /* 1 g; / 0.20 = 0.68; sigma above = ln(17.4 / 13.6) / 1.645 = 0.150; z = ln(1 / 0.68) / 0.150 =
     * 2.57: 0.005 */
    {"garlic", 4, 4, FRUCTAN, 0.136, 0.20, 0.68, 0.005, STANDING_WITHIN},
    /* 10 g; 0.175 / 0.20 = 0.875; sigma above = ln(3 / 1.75) / 1.645 = 0.328; z = 0.407: 0.342 */
    {"leek", 40, 4, FRUCTAN, 0.175, 0.20, 0.875, 0.342, STANDING_CLOSE},
    /* 30 g: 0.4 % = 0.12 g and 0.1 % = 0.03 g, together 0.15 g; / 0.20 = 0.75 */
    {"beetroot", 30, 1, OLIGOSACCHARIDES, 0.15, 0.20, 0.75, 0, STANDING_WITHIN},
    /* legumes have the larger allowance: 80 g / 4 = 20 g; 1.2 % = 0.24 g; / 0.30 = 0.80 */
    {"chickpeas", 80, 4, OLIGOSACCHARIDES, 0.24, 0.30, 0.8, 0, STANDING_WITHIN},
    /* grains too: 75 g / 3 = 25 g; 0.25 / 0.30 = 0.8333; sigma above = ln(1.5) / 1.645 = 0.2465; z
     * = ln(1.2) / 0.2465 = 0.740: 0.230 */
    {"rye", 75, 3, FRUCTAN, 0.25, 0.30, 0.833333, 0.230, STANDING_CLOSE},
    /* 60 g / 2 = 30 g; 0.8 % = 0.24 g of sorbitol; / 0.20 = 1.2 */
    {"plum", 60, 2, SORBITOL, 0.24, 0.20, 1.2, 1, STANDING_OVER},
    /* the same with its 0.1 % of mannitol: 0.27 g of polyols; / 0.40 = 0.675 */
    {"plum", 60, 2, POLYOLS, 0.27, 0.40, 0.675, 0, STANDING_WITHIN},
    /* 100 g of milk, five in a hundred lactose, for four: 1.25 g; / 1.0 = 1.25 */
    {"milk", 100, 4, LACTOSE, 1.25, 1.0, 1.25, 1, STANDING_OVER},
    /* fresh, and nothing but excess fructose: 60 g x 0.5 % = 0.30 g; / 0.40 = 0.75 */
    {"plain-fruit", 60, 1, EXCESS_FRUCTOSE, 0.30, 0.40, 0.75, 0, STANDING_WITHIN},
    /* dried: 0.30 g / 0.15 = 2.0 */
    {"dry-fruit", 60, 1, EXCESS_FRUCTOSE, 0.30, 0.15, 2.0, 1, STANDING_OVER},
    /* only the total is published: 50 g x 0.3 % = 0.15 g; / 0.20 = 0.75 */
    {"total-only", 50, 1, OLIGOSACCHARIDES, 0.15, 0.20, 0.75, 0, STANDING_WITHIN},
    /* its parts are none, but the sum has a figure of its own: 40 g x 99 % / 0.40 */
    {"xylitol", 40, 1, POLYOLS, 39.6, 0.40, 99, 1, STANDING_OVER},
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
        assert_near(g->load.mid, w->mid, 1e-6);
        assert_near(g->limit, w->limit, 1e-9);
        assert_near(g->share.mid, w->share, 1e-5 * w->share);
        assert_near(g->chance, w->chance, 0.005);
        if (g->standing != w->standing)
            fail_msg("%s: %s, not %s", w->food, standing_word(g->standing),
                     standing_word(w->standing));
        assert_int_equal(g->chief, 0);
        made_close(m);
    }
}

static const struct limit_stand *
limit_on(const struct phase_stand *s, size_t column, size_t serve)
{
    for (size_t i = 0; i < s->limit_count; i++)
        if (s->limits[i].of.column == column && s->limits[i].of.serve == serve)
            return &s->limits[i];
    fail_msg("no such limit");
    return NULL;
}

/* leek 20 g for four: 5 g x 1.75 % = 0.0875 g / 0.20 = 0.4375; rye 15 g x 1 % = 0.15 g / 0.30 =
 * 0.5. Each against the limit for its own serve; 0.2375 g of the sitting's 0.5 = 0.475 */
static void
holds_each_food_against_its_own_limit(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    made_line(m, "leek", 20);
    made_line(m, "rye", 60);
    made_line(m, "salt", 10);
    made_portions(m, 4);
    struct phase_stand s = made_stand(m);
    assert_near(limit_on(&s, FRUCTAN, 0)->worst.mid, 0.4375, 1e-6);
    assert_near(limit_on(&s, FRUCTAN, 1)->worst.mid, 0.5, 1e-6);
    assert_near(s.groups[FRUCTAN].load.mid, 0.2375, 1e-9);
    assert_near(s.sitting_share.mid, 0.475, 0.02); /* the middle of a sum of skewed spreads */
    assert_int_equal(s.standing, STANDING_WITHIN);
    assert_false(s.groups[LACTOSE].carried);
    assert_false(s.groups[LACTOSE].limited);
    made_close(m);
}

/* 10 g on one line, or 4 g and 6 g on two: the figure is the same in both, so nothing averages out
 */
static void
takes_two_lines_of_a_food_as_one(void **state)
{
    (void)state;
    struct made *m = made_open(foods), *split = made_open(foods);
    made_line(m, "leek", 10);
    made_portions(m, 1);
    made_line(split, "leek", 4);
    made_line(split, "salt", 1);
    made_line(split, "leek", 6);
    made_portions(split, 1);
    struct phase_stand whole = made_stand(m), parts = made_stand(split);
    assert_near(whole.groups[FRUCTAN].chance, parts.groups[FRUCTAN].chance, 1e-9);
    assert_near(whole.groups[FRUCTAN].share.mid, parts.groups[FRUCTAN].share.mid, 1e-9);
    made_close(m);
    made_close(split);
}

/* bread 30 g x 0.5 % = 0.15 g / 0.30 = 0.5, flour 8 g x 1 % = 0.08 g / 0.20 = 0.4: one food, of
 * unlike class, adds as shares: 0.9. Counted apart each has room for as much again. */
static void
adds_entries_that_count_as_one_food(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    made_line(m, "bread", 30);
    made_line(m, "flour", 8);
    made_portions(m, 1);
    struct phase_stand s = made_stand(m);
    assert_near(s.groups[FRUCTAN].share.mid, 0.9, 1e-9);
    made_line(m, "flour", 3);
    s = made_stand(m);
    assert_near(s.groups[FRUCTAN].share.mid, 1.05, 1e-9);
    assert_int_equal(s.standing, STANDING_OVER);
    made_close(m);
}

/* 0.18 g of galacto-oligosaccharide, 0.10 of fructose, 0.152 of sorbitol, 0.019 of mannitol, 0.75
 * of lactose; without the lactose 0.451 of 0.5 g: 0.902 */
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
    assert_int_equal(s.sitting_standing, STANDING_WITHIN);
    made_line(m, "chickpeas", 5); /* 0.06 g more: 0.24 / 0.30 = 0.8; sitting 0.511 / 0.5 */
    s = made_stand(m);
    assert_int_equal(s.sitting_standing, STANDING_OVER);
    assert_int_equal(s.groups[OLIGOSACCHARIDES].standing, STANDING_WITHIN);
    assert_int_equal(s.standing, STANDING_OVER);
    made_close(m);
}

/* the lactose of all foods of a portion: 12 g of milk and 9 g of cream, 0.6 g and 0.45 g of 1 g */
static void
sums_lactose_over_the_portion(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    made_line(m, "milk", 12);
    made_portions(m, 1);
    assert_int_equal(made_stand(m).standing, STANDING_WITHIN);
    made_line(m, "cream", 9);
    struct phase_stand s = made_stand(m);
    assert_near(s.groups[LACTOSE].share.mid, 1.05, 1e-9);
    assert_int_equal(s.standing, STANDING_OVER);
    made_close(m);
}

static void
gives_fresh_produce_its_allowance_food_by_food(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    made_line(m, "plain-fruit", 60);
    made_portions(m, 1);
    assert_true(made_stand(m).groups[EXCESS_FRUCTOSE].fresh_allowance);
    /* what another food carries is no matter: 1 g of leek beside it */
    made_line(m, "leek", 1);
    struct phase_stand s = made_stand(m);
    assert_true(s.groups[EXCESS_FRUCTOSE].fresh_allowance);
    assert_near(s.groups[EXCESS_FRUCTOSE].share.mid, 0.75, 1e-9);
    assert_int_equal(s.groups[EXCESS_FRUCTOSE].standing, STANDING_WITHIN);
    made_close(m);
    /* 40 g of a fruit with sorbitol in it, above a quarter of its limit: 0.06 g; the smaller
     * allowance, 0.20 / 0.15. 30 g hold 0.045 g, under a quarter: 0.15 / 0.40 */
    m = made_open(foods);
    made_line(m, "mixed-fruit", 40);
    made_portions(m, 1);
    assert_near(made_stand(m).groups[EXCESS_FRUCTOSE].share.mid, 0.20 / 0.15, 1e-9);
    m->dish.ingredients[0].options[0].helpings[0] = made_weighed(m, "mixed-fruit", span_exact(30));
    assert_near(made_stand(m).groups[EXCESS_FRUCTOSE].share.mid, 0.15 / 0.40, 1e-9);
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
    /* 0.20 g in 50 g: up to 0.4 g in 100 g nothing changes */
    assert_near(limit_on(&s, FRUCTAN, 1)->worst.lack.allows, 0.4, 1e-9);
    /* a known excess outweighs it */
    made_line(m, "garlic", 20);
    s = made_stand(m);
    assert_int_equal(s.standing, STANDING_OVER);
    assert_true(s.groups[FRUCTAN].unknown);
    made_close(m);
    /* a food that is not in the larder at all; of a tenth of a gram nothing can be too much */
    m = made_open(foods);
    made_line(m, "moon dust", 1);
    made_portions(m, 1);
    assert_int_equal(made_stand(m).standing, STANDING_UNKNOWN);
    made_portions(m, 10);
    assert_int_equal(made_stand(m).standing, STANDING_WITHIN);
    made_close(m);
}

/* bounded at 0.4 g in 100 g: 40 g hold at most 0.16 g of 0.20, 60 g 0.24 g */
static void
bounds_what_has_no_figure(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    made_line(m, "bounded", 40);
    made_portions(m, 1);
    struct phase_stand s = made_stand(m);
    assert_int_equal(s.standing, STANDING_WITHIN);
    assert_near(s.groups[GALACTO_OLIGOSACCHARIDE].trace_share, 0.8, 1e-9);
    made_line(m, "bounded", 20);
    s = made_stand(m);
    assert_int_equal(s.standing, STANDING_UNKNOWN);
    assert_int_equal(s.groups[GALACTO_OLIGOSACCHARIDE].unknown_ingredient, 0);
    made_close(m);
}

/* half a gram of a dried herb is no ground for not knowing; five grams are */
static void
lets_a_pinch_pass(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    made_line(m, "thyme", 1);
    made_portions(m, 2);
    assert_int_equal(made_stand(m).standing, STANDING_WITHIN);
    made_line(m, "thyme", 9);
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

/* 400 g of leek taken out of a broth for four leave all their fructan in it; out of oil alone they
 * take it with them */
static void
leaves_behind_what_is_strained_out_of_water(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    made_line(m, "leek", 400);
    m->dish.ingredients[0].line.has_stays = true;
    m->dish.ingredients[0].options[0].helpings[0].eaten = span_exact(0);
    made_line(m, "salt", 5);
    made_portions(m, 4);
    assert_int_equal(made_stand(m).standing, STANDING_OVER);
    m->dish.ingredients[1].options[0].helpings[0] = made_weighed(m, "oil", span_exact(50));
    assert_int_equal(made_stand(m).standing, STANDING_WITHIN);
    made_close(m);
}

/* serves 4 to 8: at four 15 g of leek, 0.2625 g of 0.20; at eight 7.5 g, 0.656 of it */
static void
takes_a_range_of_portions_as_variants(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    made_line(m, "leek", 60);
    made_portions(m, 4);
    m->dish.portions = span_between(4, 8);
    struct phase_stand s = made_stand(m);
    assert_int_equal(s.standing, STANDING_OVER);
    assert_int_equal(s.best_standing, STANDING_WITHIN);
    made_close(m);
}

/* a piece of 100 g, or 60 to 160: four of them vary less than one, in parts */
static void
draws_each_piece_by_itself(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    const struct figure piece = {.span = {60, 100, 160}, .source = "t", .basis = BASIS_PRACTICE};
    struct span wide[2];
    for (size_t i = 0; i < 2; i++) {
        const double count = i == 0 ? 1 : 4;
        struct sheet sheet;
        m->dish.count = 0;
        made_option(m, made_ingredient(m, false), made_counted(m, "leek", count, piece.span));
        m->dish.ingredients[0].options[0].helpings[0].weighing.measured->piece = &piece;
        made_portions(m, count);
        sheet_build(m->arena, &m->dish, &m->tables, NULL, &sheet);
        wide[i] = load_grams(&sheet.loads[0]);
    }
    assert_near(wide[0].high - wide[0].low, 100, 1);
    assert_near(wide[1].high - wide[1].low, 50, 4); /* half, as of four independent ones */
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
    assert_near(s.groups[FRUCTAN].share.mid, 0.35 / 0.60, 1e-9);
    /* threefold fructan counts a third in the sitting of the phase it is based on */
    assert_near(s.sitting.mid, 0.35 / 3, 1e-9);
    made_close(m);
}

/* leek 20 g: 0.35 g of oligosaccharides of the 0.5 g of a sitting, unless the reader lifted them */
static void
leaves_what_is_lifted_out_of_the_sitting(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    made_line(m, "leek", 20);
    made_line(m, "plum", 10);
    made_portions(m, 1);
    assert_near(made_stand(m).sitting.mid, 0.35 + 0.09, 1e-6);
    m->tables.limits.phases[0].groups[OLIGOSACCHARIDES].lifted = true;
    assert_near(made_stand(m).sitting.mid, 0.09, 1e-9);
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
        cmocka_unit_test(holds_each_food_against_its_own_limit),
        cmocka_unit_test(takes_two_lines_of_a_food_as_one),
        cmocka_unit_test(adds_entries_that_count_as_one_food),
        cmocka_unit_test(adds_up_a_sitting_without_lactose),
        cmocka_unit_test(sums_lactose_over_the_portion),
        cmocka_unit_test(gives_fresh_produce_its_allowance_food_by_food),
        cmocka_unit_test(takes_what_has_no_figure_as_unknown),
        cmocka_unit_test(bounds_what_has_no_figure),
        cmocka_unit_test(lets_a_pinch_pass),
        cmocka_unit_test(minds_amounts_that_are_not_given),
        cmocka_unit_test(leaves_behind_what_is_strained_out_of_water),
        cmocka_unit_test(takes_a_range_of_portions_as_variants),
        cmocka_unit_test(draws_each_piece_by_itself),
        cmocka_unit_test(heeds_a_readers_own_limits),
        cmocka_unit_test(leaves_what_is_lifted_out_of_the_sitting),
        cmocka_unit_test(says_unknown_where_portions_are_not_known),
        cmocka_unit_test(reads_only_limits_that_matter),
    };
    return cmocka_run_group_tests_name("portion", tests, NULL, NULL);
}
