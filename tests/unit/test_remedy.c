/* Remedies, each applied again here to the dish and reckoned, and the programme behind them. */
#include "made_dish.h"

#include "reckon/cuts.h"
#include "reckon/remedy.h"
#include "reckon/remedy_words.h"

static const char foods[] =
    "foods:\n"
    "  honey: {name: honey, class: other, forms: {whole: {density: {mid: 1.4, source: t, basis: "
    "published}}}, per-100-g: {lactose: &n {mid: 0, source: t, basis: calculated}, "
    "excess-fructose: {low: 6, mid: 7, high: 8, source: t, basis: published}, fructan: *n, "
    "galacto-oligosaccharide: *n, sorbitol: *n, mannitol: *n}}\n"
    "  syrup: {name: maple syrup, class: other, forms: {whole: {}}, per-100-g: {all: *n}}\n"
    "  leek: {name: leek, class: vegetable, fresh: yes, forms: {whole: {}}, per-100-g: {lactose: "
    "*n, excess-fructose: *n, fructan: {low: 1.5, mid: 1.75, high: 2, source: t, basis: "
    "published}, galacto-oligosaccharide: *n, sorbitol: *n, mannitol: *n}}\n"
    "  onion: {name: onion, class: vegetable, fresh: yes, forms: {whole: {}}, per-100-g: {lactose: "
    "*n, excess-fructose: *n, fructan: {mid: 2.1, source: t, basis: published}, "
    "galacto-oligosaccharide: *n, sorbitol: *n, mannitol: *n}}\n"
    "  plum: {name: plum, class: fruit, fresh: yes, forms: {whole: {}}, per-100-g: {lactose: *n, "
    "excess-fructose: *n, fructan: *n, galacto-oligosaccharide: *n, sorbitol: {mid: 0.8, source: "
    "t, basis: calculated}, mannitol: *n}}\n"
    "  salt: {name: salt, class: other, forms: {whole: {}}, per-100-g: {all: *n}}\n"
    "  beans: {name: beans, class: vegetable, forms: {tin: {edible: {mid: 0.5, source: t, basis: "
    "published}}}, per-100-g: {lactose: *n, excess-fructose: *n, fructan: {mid: 0.4, source: t, "
    "basis: published}, galacto-oligosaccharide: *n, sorbitol: *n, mannitol: *n}}\n"
    "  untested: {name: untested, class: vegetable, forms: {whole: {}}}\n";

static struct remedies
find(struct made *m, struct phase_stand *s)
{
    struct choices c;
    struct remedies r;
    struct sheet sheet;
    sheet_lay(m->arena, &m->dish, &m->tables, 0, NULL, &sheet);
    sheet_stand(m->arena, &sheet, s);
    sheet_choices(m->arena, &sheet, &c);
    remedies_find(m->arena, &m->dish, &m->tables, NULL, &sheet, s, &c, &r);
    return r;
}

/* the dish as a cook makes it who does what the remedy says */
static struct dish
applied(struct made *m, const struct remedy *r)
{
    struct dish d = m->dish;
    d.ingredients = arena_take_array(m->arena, d.count + 1, sizeof *d.ingredients);
    for (size_t i = 0; i < d.count; i++) {
        struct ingredient *in = &d.ingredients[i];
        *in = m->dish.ingredients[i];
        in->options = arena_take_array(m->arena, in->option_count + 1, sizeof *in->options);
        for (size_t o = 0; o < in->option_count; o++) {
            const struct dish_option *from = &m->dish.ingredients[i].options[o];
            in->options[o].count = from->count;
            in->options[o].helpings =
                arena_take_array(m->arena, from->count + 1, sizeof *from->helpings);
            memcpy(in->options[o].helpings, from->helpings, from->count * sizeof *from->helpings);
        }
    }
    if (r->kind == REMEDY_PORTION) {
        d.portion = span_exact(r->amount);
        d.portions = span_exact(d.yield.low / r->amount);
    } else if (r->kind == REMEDY_PORTIONS) {
        d.portions = span_exact(r->amount);
    }
    /* amounts first: settling renumbers options */
    for (size_t k = 0; k < r->cut_count; k++) {
        const struct cut *cut = &r->cuts[k];
        if (cut->settles)
            continue;
        struct helping *h =
            &d.ingredients[cut->ingredient].options[cut->option].helpings[cut->helping];
        h->eaten = span_scale(h->eaten, cut->grams / h->weighing.grams.mid);
    }
    for (size_t k = 0; k < r->cut_count; k++) {
        const struct cut *cut = &r->cuts[k];
        struct ingredient *in = &d.ingredients[cut->ingredient];
        if (!cut->settles)
            continue;
        if (cut->option == SIZE_MAX) {
            in->option_count = 0;
        } else {
            in->options += cut->option;
            in->option_count = 1;
            in->optional = false;
        }
    }
    return d;
}

static void
check_all(struct made *m, const struct remedies *r, enum standing wanted)
{
    for (size_t i = 0; i < r->count; i++) {
        struct dish d = applied(m, &r->items[i]);
        struct phase_stand s;
        portion_stand(m->arena, &d, &m->tables, 0, NULL, &s);
        if (s.standing > wanted || s.standing != r->items[i].after)
            fail_msg("“%.*s” leaves it %s, not %s", SLICE_ARGS(r->items[i].sentence),
                     standing_word(s.standing), standing_word(r->items[i].after));
    }
}

static const struct remedy *
of_kind(const struct remedies *r, enum remedy_kind kind)
{
    for (size_t i = 0; i < r->count; i++)
        if (r->items[i].kind == kind)
            return &r->items[i];
    return NULL;
}

static void
says(const struct remedies *r, enum remedy_kind kind, const char *sentence)
{
    const struct remedy *one = of_kind(r, kind);
    if (one == NULL)
        fail_msg("there is no remedy of kind %d", (int)kind);
    if (!slice_is(one->sentence, sentence))
        fail_msg("“%.*s”, not “%s”", SLICE_ARGS(one->sentence), sentence);
}

static void
tells(struct made *m, const struct remedies *r, enum remedy_kind kind, const char *words)
{
    const struct remedy *one = of_kind(r, kind);
    struct slice told = remedy_words(m->arena, &m->dish, &m->tables, NULL, m->dish.region, one);
    if (!slice_is(told, words))
        fail_msg("“%.*s”, not “%s”", SLICE_ARGS(told), words);
}

/* 2 tbsp of 20 mL x 1.4 = 56 g for 4: 14 g x 7 % = 0.98 g, 6.53 of 0.15 g.
 * mid under 0.80 x 0.15 = 0.12 g: 1.714 g a portion, 6.857 g, 4.898 mL; high under 0.15 g: 1.875 g.
 * 4.898 mL is ¾ tsp of 5 mL (3.75 mL, 5.25 g). */
static void
reduces_the_chief_contributor_in_spoons(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    made_option(m, made_ingredient(m, false), made_spooned(m, "honey", 2, "tbsp", 1.4));
    made_line(m, "salt", 5);
    made_portions(m, 4);
    struct phase_stand s;
    struct remedies r = find(m, &s);
    assert_int_equal(s.standing, STANDING_OVER);
    says(&r, REMEDY_REDUCE, "Use ¾ tsp (about 5.2 g) of honey instead of 2 tbsp.");
    assert_near(of_kind(&r, REMEDY_REDUCE)->cuts[0].grams, 5.25, 1e-9);
    /* in US spoons 40 mL are 2 tbsp + 2 tsp (39.4 mL), and 3.75 mL hold ¾ tsp (3.70 mL) */
    struct remedy small = *of_kind(&r, REMEDY_REDUCE);
    small.drastic = false;
    struct slice us = remedy_words(m->arena, &m->dish, &m->tables, NULL, 1, &small);
    assert_true(slice_is(us, "Use ¾ tsp (about 5.2 g) of honey instead of 2 tbsp + 2 tsp."));
    /* 0.98 x 4 / 0.12 = 32.67: 33 portions */
    says(&r, REMEDY_PORTIONS, "Divide the dish into 33 portions instead of 4.");
    /* a tenth of the honey and eight times the portions: hardly the same dish, and told as such */
    assert_true(r.items[0].drastic && of_kind(&r, REMEDY_PORTIONS)->drastic);
    tells(m, &r, REMEDY_REDUCE, "No small change is enough: replace the honey.");
    tells(m, &r, REMEDY_PORTIONS, "No small change is enough: it would take 33 portions, not 4.");
    check_all(m, &r, STANDING_WITHIN);
    made_close(m);
}

/* 24 fingers, 4 a portion: 60 g of leek / 6 = 10 g x 1.75 % = 0.175 g, 0.875 of 0.20, high 1.0.
 * Three fingers: 0.656, high 0.75. */
static void
finds_the_largest_portion_in_things(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    made_line(m, "leek", 60);
    made_portions(m, 6);
    m->dish.yield_kind = YIELD_COUNT;
    m->dish.yield = span_exact(24);
    m->dish.portion = span_exact(4);
    m->dish.yield_thing = SLICE("fingers");
    struct phase_stand s;
    struct remedies r = find(m, &s);
    assert_int_equal(s.standing, STANDING_CLOSE);
    says(&r, REMEDY_PORTION, "Serve 3 fingers instead of 4.");
    /* 60 g x 1.75 % / (0.8 x 0.20) = 6.56: 7 portions */
    says(&r, REMEDY_PORTIONS, "Divide the dish into 7 portions instead of 6.");
    /* 0.80 x 0.20 / 1.75 % x 6 = 54.857 g: down to 50 on a scale of 5 g */
    says(&r, REMEDY_REDUCE, "Use 50 g of leek instead of 60 g.");
    check_all(m, &r, STANDING_WITHIN);
    made_close(m);
}

static void
drops_what_is_optional_or_takes_an_alternative(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    made_option(m, made_ingredient(m, true), made_weighed(m, "leek", span_exact(50)));
    made_line(m, "salt", 5);
    made_portions(m, 2);
    struct phase_stand s;
    struct remedies r = find(m, &s);
    says(&r, REMEDY_DROP, "Leave out the leek.");
    check_all(m, &r, STANDING_WITHIN);
    made_close(m);
    m = made_open(foods);
    struct ingredient *sweet = made_ingredient(m, false);
    made_option(m, sweet, made_weighed(m, "honey", span_exact(40)));
    made_option(m, sweet, made_weighed(m, "syrup", span_exact(40)));
    made_portions(m, 4);
    r = find(m, &s);
    says(&r, REMEDY_ALTERNATIVE, "Use maple syrup, not honey.");
    check_all(m, &r, STANDING_WITHIN);
    made_close(m);
}

static void
puts_sensible_changes_first(void **state)
{
    (void)state;
    struct phase_stand s;
    /* 13 g x 1.75 % = 0.2275 g of 0.20; 0.16 / 1.75 % = 9.14 g may stay: 9 g */
    struct made *m = made_open(foods);
    made_line(m, "leek", 13);
    made_line(m, "salt", 200);
    made_portions(m, 1);
    struct remedies r = find(m, &s);
    assert_int_equal(s.standing, STANDING_OVER);
    assert_int_equal(r.items[0].kind, REMEDY_REDUCE);
    for (size_t i = 0; i < r.count; i++)
        assert_false(r.items[i].drastic);
    tells(m, &r, REMEDY_REDUCE, "Use 9 g of leek instead of 13 g.");
    made_close(m);
    /* 9.14 of 400 g: a fortieth of it, or 44 portions */
    m = made_open(foods);
    made_line(m, "leek", 400);
    made_line(m, "salt", 200);
    made_portions(m, 1);
    r = find(m, &s);
    assert_true(r.count > 0);
    for (size_t i = 0; i < r.count; i++)
        assert_true(r.items[i].drastic);
    tells(m, &r, REMEDY_REDUCE, "No small change is enough: replace the leek.");
    made_close(m);
}

/* onion 10 g and plum 40 g for one: fructan 0.21 g of 0.20, sorbitol 0.32 g of 0.20: neither cut
 * alone is enough. Onion to 7 g: 0.147 g, 0.735; plum to 20 g: 0.16 g is 0.80 and close, so 19 g:
 * 0.76. */
static void
solves_for_the_smallest_set_of_cuts(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    made_line(m, "onion", 10);
    made_line(m, "plum", 40);
    made_line(m, "salt", 3);
    made_portions(m, 1);
    struct phase_stand s;
    struct remedies r = find(m, &s);
    assert_null(of_kind(&r, REMEDY_REDUCE));
    says(&r, REMEDY_CUTS, "Use 19 g of plum instead of 40 g and use 7 g of onion instead of 10 g.");
    assert_int_equal(of_kind(&r, REMEDY_CUTS)->cut_count, 2);
    check_all(m, &r, STANDING_WITHIN);
    made_close(m);
}

static void
counts_in_halves_and_quarters(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    /* 3 onions of 10 g for two: 15 g x 2.1 % = 0.315 g; 0.80 x 0.20 = 0.16 g: 15.24 g, 1.5 onions
     */
    made_option(m, made_ingredient(m, false), made_counted(m, "onion", 3, span_exact(10)));
    made_portions(m, 2);
    struct phase_stand s;
    struct remedies r = find(m, &s);
    says(&r, REMEDY_REDUCE, "Cut the onion from 3 to 1½ (about 15 g).");
    check_all(m, &r, STANDING_WITHIN);
    made_close(m);
}

static void
offers_nothing_where_nothing_helps(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    made_line(m, "salt", 5);
    made_portions(m, 1);
    struct phase_stand s;
    assert_int_equal(find(m, &s).count, 0); /* within */
    made_close(m);
    m = made_open(foods);
    made_line(m, "untested", 100);
    made_portions(m, 1);
    assert_int_equal(find(m, &s).count, 0); /* no portion of an unknown thing is known */
    assert_int_equal(s.standing, STANDING_UNKNOWN);
    made_close(m);
}

static void
leaves_out_what_has_no_figure(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    made_line(m, "salt", 5);
    made_line(m, "untested", 100);
    made_portions(m, 1);
    struct phase_stand s;
    struct remedies r = find(m, &s);
    says(&r, REMEDY_CUTS, "Leave out the untested.");
    check_all(m, &r, STANDING_WITHIN);
    /* onion 10 g: 0.21 g of 0.20; 7 g: 0.147 g, 0.735 */
    made_line(m, "onion", 10);
    r = find(m, &s);
    says(&r, REMEDY_CUTS, "Leave out the untested and use 7 g of onion instead of 10 g.");
    check_all(m, &r, STANDING_WITHIN);
    made_close(m);
}

/* plum 40 g: 0.32 g of sorbitol against 0.20; 20 g would be close (0.16 g, 0.80), so 19 g. Beside
 * it syrup, which brings nothing, or 4 g of honey (0.28 g against 0.15) or 20 g of leek (0.35 g
 * against 0.20): two changes where cutting whatever the cook took would be three. */
static void
settles_choices_and_cuts_what_is_left(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    made_line(m, "plum", 40);
    struct ingredient *choice = made_ingredient(m, false);
    made_option(m, choice, made_weighed(m, "honey", span_exact(4)));
    made_option(m, choice, made_weighed(m, "leek", span_exact(20)));
    made_option(m, choice, made_weighed(m, "syrup", span_exact(4)));
    made_portions(m, 1);
    struct phase_stand s;
    struct remedies r = find(m, &s);
    says(&r, REMEDY_CUTS,
         "Use maple syrup, not honey or leek, and use 19 g of plum instead of 40 g.");
    check_all(m, &r, STANDING_WITHIN);
    made_close(m);
}

/* a tin of 400 g holds 200 g drained, 100 g for each of two: 0.4 g of 0.20. 0.80 x 0.20 / 0.4 % x 2
 * = 80 g drained is close, 75 g within. Of 75 g from the tin the cook would not know what to weigh.
 */
static void
weighs_a_tin_drained(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    struct helping tin = made_weighed(m, "beans", span_exact(400));
    tin.weighing.edible_share = &tin.food->forms[0].edible;
    tin.weighing.edible = tin.eaten = span_exact(200);
    made_option(m, made_ingredient(m, false), tin);
    made_portions(m, 2);
    struct phase_stand s;
    struct remedies r = find(m, &s);
    says(&r, REMEDY_REDUCE, "Use 75 g of drained beans instead of 400 g.");
    check_all(m, &r, STANDING_WITHIN);
    made_close(m);
}

/* two lines of one food: "the leek" would not say which */
static void
tells_lines_of_one_name_apart(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    made_line(m, "leek", 5);
    made_option(m, made_ingredient(m, true), made_weighed(m, "leek", span_exact(50)));
    made_portions(m, 2);
    struct phase_stand s;
    struct remedies r = find(m, &s);
    says(&r, REMEDY_DROP, "Leave out the leek (the second listed).");
    check_all(m, &r, STANDING_WITHIN);
    made_close(m);
}

static double
chance(uint64_t *seed)
{
    *seed ^= *seed >> 12;
    *seed ^= *seed << 25;
    *seed ^= *seed >> 27;
    return (double)((*seed * 0x2545F4914F6CDD1DULL) >> 11) / 9007199254740992.0;
}

/* each of many remedies for random dishes, applied */
static void
keeps_what_it_says_on_random_dishes(void **state)
{
    (void)state;
    static const char *const names[] = {"honey", "syrup", "leek", "onion", "plum", "salt"};
    size_t given = 0;
    for (uint64_t n = 1; n <= 400; n++) {
        uint64_t seed = n * 0x9E3779B97F4A7C15ULL;
        struct made *m = made_open(foods);
        for (size_t i = 0; i < 4; i++) {
            struct ingredient *in = made_ingredient(m, chance(&seed) < 0.2);
            size_t options = chance(&seed) < 0.3 ? 2 : 1;
            for (size_t o = 0; o < options; o++) {
                const char *name = names[(size_t)(chance(&seed) * 6) % 6];
                double amount = chance(&seed);
                made_option(
                    m, in,
                    chance(&seed) < 0.4
                        ? made_spooned(m, name, floor(1 + amount * 5), "tsp", 1.1)
                        : made_weighed(m, name, span_make(amount * 50, amount * 60, amount * 65)));
            }
        }
        made_portions(m, floor(1 + chance(&seed) * 5));
        struct phase_stand s;
        struct remedies r = find(m, &s);
        if (s.standing > STANDING_CLOSE && r.count == 0)
            fail_msg("nothing was found for dish %llu, which stands %s", (unsigned long long)n,
                     standing_word(s.standing));
        check_all(m, &r, STANDING_WITHIN);
        given += r.count;
        made_close(m);
    }
    assert_true(given > 300);
}

static void
cuts_the_fewest_then_the_least(void **state)
{
    (void)state;
    /* one need: the thing that brings most of it for its weight is not the one alone that suffices
     */
    struct cut_problem p = {.things = 3, .needs = 1, .need = {2}, .weight = {1, 10, 1}};
    p.effect[0][0] = 1.5;
    p.effect[1][0] = 4;
    p.effect[2][0] = 1;
    double cut[CUT_THINGS_MOST];
    assert_true(cuts_fewest(&p, cut));
    assert_near(cut[0], 0, 1e-9);
    assert_near(cut[1], 0.5, 1e-9);
    assert_near(cut[2], 0, 1e-9);
    /* two needs met best in a corner: x >= 1/2, x + y >= 1.2 at weights 1 and 3: x = 1, y = 0.2 */
    p = (struct cut_problem){.things = 2, .needs = 2, .need = {0.5, 1.2}, .weight = {1, 3}};
    p.effect[0][0] = 1;
    p.effect[0][1] = 1;
    p.effect[1][1] = 1;
    assert_true(cuts_fewest(&p, cut));
    assert_near(cut[0], 1, 1e-9);
    assert_near(cut[1], 0.2, 1e-9);
    p.need[1] = 2.1;
    assert_false(cuts_fewest(&p, cut));
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(reduces_the_chief_contributor_in_spoons),
        cmocka_unit_test(finds_the_largest_portion_in_things),
        cmocka_unit_test(drops_what_is_optional_or_takes_an_alternative),
        cmocka_unit_test(puts_sensible_changes_first),
        cmocka_unit_test(solves_for_the_smallest_set_of_cuts),
        cmocka_unit_test(counts_in_halves_and_quarters),
        cmocka_unit_test(offers_nothing_where_nothing_helps),
        cmocka_unit_test(leaves_out_what_has_no_figure),
        cmocka_unit_test(settles_choices_and_cuts_what_is_left),
        cmocka_unit_test(weighs_a_tin_drained),
        cmocka_unit_test(tells_lines_of_one_name_apart),
        cmocka_unit_test(keeps_what_it_says_on_random_dishes),
        cmocka_unit_test(cuts_the_fewest_then_the_least),
    };
    return cmocka_run_group_tests_name("remedy", tests, NULL, NULL);
}
