/* Remedies: what is tried, in which order, what it says; each is applied again here, by the test's
 * own hand, and reckoned. */
#include "made_dish.h"

#include "reckon/remedy.h"
#include "reckon/remedy_words.h"

static const char foods[] =
    "foods:\n"
    "  honey: {name: honey, class: other, forms: {whole: {density: {mid: 1.4, source: t, basis: "
    "published}}}, per-100-g: {lactose: &n {kind: none, source: t, basis: calculated}, "
    "excess-fructose: {mid: 7, source: t, basis: published}, fructan: *n, "
    "galacto-oligosaccharide: *n, sorbitol: *n, mannitol: *n}}\n"
    "  syrup: {name: maple syrup, class: other, forms: {whole: {density: {mid: 1.3, source: t, "
    "basis: published}}}, per-100-g: {all: *n}}\n"
    "  leek: {name: leek, class: vegetable, fresh: yes, forms: {whole: {}}, per-100-g: {lactose: "
    "*n, excess-fructose: *n, fructan: {mid: 2, source: t, basis: published}, "
    "galacto-oligosaccharide: *n, sorbitol: *n, mannitol: *n}}\n"
    "  onion: {name: onion, class: vegetable, fresh: yes, forms: {whole: {}}, per-100-g: {lactose: "
    "*n, excess-fructose: *n, fructan: {mid: 2, source: t, basis: published}, "
    "galacto-oligosaccharide: *n, sorbitol: *n, mannitol: *n}}\n"
    "  chives: {name: chives, class: vegetable, fresh: yes, forms: {whole: {}}, per-100-g: {all: "
    "*n}}\n"
    "  plum: {name: plum, class: fruit, fresh: yes, forms: {whole: {}}, per-100-g: {lactose: *n, "
    "excess-fructose: *n, fructan: *n, galacto-oligosaccharide: *n, sorbitol: {mid: 0.8, source: "
    "t, basis: calculated}, mannitol: *n}}\n"
    "  milk: {name: milk, class: dairy, allergens: [milk], breaks: [vegan], forms: {whole: {}}, "
    "per-100-g: {lactose: {mid: 5, source: t, basis: published}, excess-fructose: *n, fructan: *n, "
    "galacto-oligosaccharide: *n, sorbitol: *n, mannitol: *n}}\n"
    "  lactose-free-milk: {name: lactose-free milk, class: dairy, allergens: [milk], breaks: "
    "[vegan], forms: {whole: {}}, per-100-g: {all: *n}}\n"
    "  almond-drink: {name: almond drink, class: other, allergens: [nuts], forms: {whole: {}}, "
    "per-100-g: {all: *n}}\n"
    "  yeast: {name: yeast, class: other, forms: {whole: {}}, per-100-g: {all: *n}}\n"
    "  salt: {name: salt, class: other, forms: {whole: {}}, per-100-g: {all: *n}}\n"
    "  beans: {name: beans, class: vegetable, forms: {tin: {edible: {mid: 0.5, source: t, basis: "
    "published}}}, per-100-g: {lactose: *n, excess-fructose: *n, fructan: {mid: 0.4, source: t, "
    "basis: published}, galacto-oligosaccharide: *n, sorbitol: *n, mannitol: *n}}\n"
    "  untested: {name: untested, class: vegetable, forms: {whole: {}}}\n";

static const char swaps[] =
    "garnish: {words: [to serve]}\n"
    "swaps:\n"
    "  sweet: {of: [honey], use: syrup, ratio: 1, work: sweetness, loses: its taste, source: t, "
    "basis: practice}\n"
    "  tops: {of: [onion], use: chives, ratio: 0.5, up-to: 60, not-with: [yeast], work: savour, "
    "loses: body, also: stir it in last, source: t, basis: practice}\n"
    "  greens: {of: [leek], use: chives, ratio: 1, work: savour, loses: body, source: t, basis: "
    "practice}\n"
    "  nutty: {of: [milk], use: almond-drink, ratio: 1, work: liquid, loses: little, source: t, "
    "basis: practice}\n"
    "  free: {of: [milk], use: lactose-free-milk, ratio: 1, work: liquid, loses: nothing, source: "
    "t, basis: practice}\n";

struct asked {
    struct made *made;
    struct words title;
    struct phase_stand stand;
    struct remedies remedies;
};

static struct asked
ask(bool with_swaps)
{
    struct asked x = {.made = made_open(foods)};
    if (with_swaps)
        swaps_load(x.made->arena, "swaps.yaml", made_yaml(x.made, swaps), &x.made->notices,
                   &x.made->tables.swaps);
    assert_int_equal(x.made->notices.count, 0);
    return x;
}

static void
find(struct asked *x)
{
    struct made *m = x->made;
    struct sheet sheet;
    sheet_build(m->arena, &m->dish, &m->tables, NULL, &sheet);
    sheet_stand(m->arena, &sheet, 0, NULL, &x->stand);
    const struct remedy_asked asked = {&sheet, 0, &x->stand, &x->title};
    remedies_find(m->arena, &asked, NULL, &x->remedies);
}

static void
titled(struct asked *x, const char *title)
{
    words_read(x->made->arena, NULL, slice_of(title), &x->title);
}

static void
says(const struct asked *x, size_t i, const char *sentence)
{
    if (i >= x->remedies.count)
        fail_msg("there are %zu remedies, not “%s” (“%.*s”)", x->remedies.count, sentence,
                 SLICE_ARGS(x->remedies.refusal));
    if (!slice_is(x->remedies.items[i].sentence, sentence))
        fail_msg("“%.*s”, not “%s”", SLICE_ARGS(x->remedies.items[i].sentence), sentence);
}

static void
refuses(const struct asked *x, const char *sentence)
{
    if (!slice_is(x->remedies.refusal, sentence))
        fail_msg("“%.*s”, not “%s”", SLICE_ARGS(x->remedies.refusal), sentence);
    assert_int_equal(x->remedies.count, 0);
}

/* the dish as a cook makes it who does what the change says */
static void
apply(struct made *m, struct dish *d, const struct change *c)
{
    struct ingredient *in = &d->ingredients[c->ingredient];
    if (c->kind == CHANGE_PORTION) {
        d->portions =
            span_exact(d->yield_kind == YIELD_NONE ? c->amount : d->yield.mid / c->amount);
        return;
    }
    if (c->kind == CHANGE_LEAVE) {
        in->option_count = 0;
    } else if (c->kind == CHANGE_OPTION) {
        in->options = &in->options[c->option];
        in->option_count = 1;
        in->optional = false;
    } else if (c->kind == CHANGE_CUT) {
        struct helping *h = &in->options[c->option].helpings[c->helping];
        h->eaten = span_scale(h->eaten, c->kept);
        h->weighing.edible = span_scale(h->weighing.edible, c->kept);
        h->weighing.grams = span_scale(h->weighing.grams, c->kept);
    }
    for (size_t i = 0; c->kind == CHANGE_SWAP && i < d->count; i++)
        for (size_t o = 0; o < d->ingredients[i].option_count; o++) {
            struct helping *h = &d->ingredients[i].options[o].helpings[0];
            for (const char **id = c->swap->of; *id != NULL; id++)
                if (strcmp(h->food->id, *id) == 0) {
                    *h = made_weighed(m, c->swap->use, span_scale(h->eaten, c->swap->ratio));
                    break;
                }
        }
}

static void
check_all(struct asked *x, enum standing wanted)
{
    struct made *m = x->made;
    for (size_t r = 0; r < x->remedies.count; r++) {
        struct dish d = m->dish;
        d.ingredients = arena_take_array(m->arena, d.count + 1, sizeof *d.ingredients);
        for (size_t i = 0; i < d.count; i++) {
            struct ingredient *in = &d.ingredients[i];
            *in = m->dish.ingredients[i];
            in->options = arena_take_array(m->arena, in->option_count + 1, sizeof *in->options);
            for (size_t o = 0; o < in->option_count; o++) {
                in->options[o] = m->dish.ingredients[i].options[o];
                in->options[o].helpings = (struct helping *)(void *)arena_copy(
                    m->arena, (const char *)in->options[o].helpings,
                    in->options[o].count * sizeof(struct helping));
            }
        }
        for (size_t k = 0; k < x->remedies.items[r].count; k++)
            apply(m, &d, &x->remedies.items[r].changes[k]);
        struct phase_stand s;
        portion_stand(m->arena, &d, &m->tables, 0, NULL, &s);
        if (s.standing > wanted)
            fail_msg("“%.*s” leaves it %s", SLICE_ARGS(x->remedies.items[r].sentence),
                     standing_word(s.standing));
    }
}

static void
takes_the_other_option_first(void **state)
{
    (void)state;
    struct asked x = ask(true);
    struct ingredient *sweet = made_ingredient(x.made, false);
    made_option(x.made, sweet, made_weighed(x.made, "honey", span_exact(40)));
    made_option(x.made, sweet, made_weighed(x.made, "syrup", span_exact(40)));
    made_portions(x.made, 4);
    find(&x);
    says(&x, 0, "Use maple syrup, not honey.");
    assert_int_equal(x.remedies.count, 1); /* the swap of the table would say the same again */
    check_all(&x, STANDING_WITHIN);
    made_close(x.made);
}

static void
leaves_out_what_is_optional_or_garnish(void **state)
{
    (void)state;
    struct asked x = ask(false);
    made_option(x.made, made_ingredient(x.made, true),
                made_weighed(x.made, "leek", span_exact(50)));
    made_line(x.made, "salt", 5);
    made_portions(x.made, 2);
    find(&x);
    says(&x, 0, "Leave out the leek.");
    check_all(&x, STANDING_WITHIN);
    made_close(x.made);
    x = ask(true);
    made_line(x.made, "plum", 100);
    struct words line = {.count = 0};
    words_read(x.made->arena, NULL, SLICE("100 g plum, to serve"), &line);
    x.made->dish.ingredients[0].words = &line;
    made_portions(x.made, 1);
    find(&x);
    says(&x, 0, "Leave out the plum.");
    /* not what the dish is named for */
    titled(&x, "Plum bowl");
    find(&x);
    refuses(&x, "No small change is enough. Too much in a portion: plum, 100 g (at most 25 g). As "
                "it is, this is no dish for the strict phase.");
    made_close(x.made);
}

/* 100 g of onion for four; 50 g of chives of no density are weighed. Of 400 g a portion would hold
 * more than the swap can stand for. */
static void
swaps_by_the_table(void **state)
{
    (void)state;
    struct asked x = ask(true);
    made_line(x.made, "onion", 100);
    made_line(x.made, "salt", 5);
    made_portions(x.made, 4);
    find(&x);
    says(&x, 0, "Use 50 g of chives instead of the onion (stir it in last). The dish loses body.");
    check_all(&x, STANDING_WITHIN);
    titled(&x, "Red onion tart"); /* named for it: it may only be cut */
    find(&x);
    says(&x, 0, "Use 40 g of onion instead of 100 g.");
    check_all(&x, STANDING_WITHIN);
    titled(&x, "Tart");
    made_line(x.made, "yeast", 5);
    find(&x);
    says(&x, 0, "Use 40 g of onion instead of 100 g.");
    x.made->dish.count--;
    x.made->dish.ingredients[0].options[0].helpings[0] =
        made_weighed(x.made, "onion", span_exact(400));
    find(&x);
    refuses(&x, "No small change is enough. Too much in a portion: onion, 100 g (at most 9 g). As "
                "it is, this is no dish for the strict phase.");
    made_close(x.made);
}

/* almond drink would bring nuts; lactose-free milk is milk still, whatever the dish is named */
static void
swaps_keep_what_the_dish_is(void **state)
{
    (void)state;
    struct asked x = ask(true);
    made_line(x.made, "milk", 400);
    made_portions(x.made, 2);
    titled(&x, "Milk rice");
    find(&x);
    says(&x, 0, "Use lactose-free milk instead of the milk. The dish loses nothing.");
    check_all(&x, STANDING_WITHIN);
    made_close(x.made);
}

/* 30 g of leek hold 0.6 g of fructan against 0.2 g: 10 g, a third, is at the limit and not over */
static void
cuts_a_line_to_a_third_at_least(void **state)
{
    (void)state;
    struct asked x = ask(false);
    made_line(x.made, "leek", 30);
    made_line(x.made, "salt", 200);
    made_portions(x.made, 1);
    find(&x);
    says(&x, 0, "Use 10 g of leek instead of 30 g.");
    check_all(&x, STANDING_WITHIN);
    made_close(x.made);
    x = ask(false);
    made_line(x.made, "leek", 31);
    made_portions(x.made, 1);
    find(&x);
    assert_int_equal(x.remedies.count, 0);
    made_close(x.made);
}

/* 3 onions of 10 g for two: 15 g x 2 % = 0.30 g; 10 g each may be: two onions */
static void
cuts_in_the_cooks_measures(void **state)
{
    (void)state;
    struct asked x = ask(false);
    made_option(x.made, made_ingredient(x.made, false),
                made_counted(x.made, "onion", 3, span_exact(10)));
    made_portions(x.made, 2);
    find(&x);
    says(&x, 0, "Cut the onion from 3 to 2 (about 20 g).");
    check_all(&x, STANDING_WITHIN);
    made_close(x.made);
    /* 1 tsp of 5 mL x 1.4 = 7 g for two: 0.245 g against 0.15: 4.28 g, 3.06 mL; ½ tsp */
    x = ask(false);
    made_option(x.made, made_ingredient(x.made, false),
                made_spooned(x.made, "honey", 1, "tsp", 1.4));
    made_portions(x.made, 2);
    find(&x);
    says(&x, 0, "Use ½ tsp (about 3.5 g) of honey instead of 1 tsp.");
    const struct kitchen us = {&x.made->dish, &x.made->tables, 1, NULL};
    struct slice words = remedy_words(x.made->arena, &us, &x.remedies.items[0]);
    assert_true(slice_is(words, "Use ½ tsp (about 3.5 g) of honey instead of 1 tsp."));
    check_all(&x, STANDING_WITHIN);
    made_close(x.made);
    /* a tin of 400 g holds 200 g drained, 100 g for each of two: 0.4 g of 0.2 g. Of what is left in
     * the tin the cook would not know what to weigh. */
    x = ask(false);
    struct helping tin = made_weighed(x.made, "beans", span_exact(400));
    tin.weighing.edible_share = &tin.food->forms[0].edible;
    tin.weighing.edible = tin.eaten = span_exact(200);
    made_option(x.made, made_ingredient(x.made, false), tin);
    made_portions(x.made, 2);
    find(&x);
    says(&x, 0, "Use 100 g of drained beans instead of 400 g.");
    check_all(&x, STANDING_WITHIN);
    made_close(x.made);
}

/* plum 40 g: 0.32 g of sorbitol against 0.20, 25 g may be; onion 20 g: 0.4 g against 0.2, 10 g */
static void
cuts_two_lines_where_one_is_not_enough(void **state)
{
    (void)state;
    struct asked x = ask(false);
    made_line(x.made, "onion", 20);
    made_line(x.made, "plum", 40);
    made_portions(x.made, 1);
    find(&x);
    assert_int_equal(x.remedies.count, 1);
    says(&x, 0, "Use 10 g of onion instead of 20 g; and use 25 g of plum instead of 40 g.");
    check_all(&x, STANDING_WITHIN);
    made_close(x.made);
}

static void
swaps_up_to_three_foods(void **state)
{
    (void)state;
    struct asked x = ask(true);
    made_line(x.made, "onion", 50);
    made_line(x.made, "honey", 50);
    made_portions(x.made, 1);
    find(&x);
    says(&x, 0,
         "Use maple syrup instead of the honey; and use 25 g of chives instead of the onion "
         "(stir it in last).");
    check_all(&x, STANDING_WITHIN);
    made_line(x.made, "milk", 200);
    find(&x);
    assert_int_equal(x.remedies.count, 1);
    assert_int_equal(x.remedies.items[0].count, 3);
    check_all(&x, STANDING_WITHIN);
    made_line(x.made, "plum", 200);
    find(&x);
    assert_int_equal(x.remedies.count, 0);
    assert_int_equal(x.remedies.refused_count, REFUSED_MOST);
    made_close(x.made);
}

/* 24 fingers, 4 a portion: 13.3 g of leek, 0.267 g against 0.2; three fingers 0.2 g */
static void
makes_the_portion_smaller_last(void **state)
{
    (void)state;
    struct asked x = ask(false);
    made_line(x.made, "leek", 80);
    made_portions(x.made, 6);
    x.made->dish.yield_kind = YIELD_COUNT;
    x.made->dish.yield = span_exact(24);
    x.made->dish.portion = span_exact(4);
    x.made->dish.yield_thing = SLICE("fingers");
    find(&x);
    says(&x, 0, "Use 60 g of leek instead of 80 g.");
    says(&x, 1, "Serve 3 fingers instead of 4.");
    check_all(&x, STANDING_WITHIN);
    made_close(x.made);
    x = ask(false);
    made_line(x.made, "leek", 60);
    made_portions(x.made, 4);
    find(&x);
    says(&x, 1, "Divide the dish into 6 portions instead of 4.");
    check_all(&x, STANDING_WITHIN);
    made_close(x.made);
}

static void
says_nothing_of_what_is_within_or_unknown(void **state)
{
    (void)state;
    struct asked x = ask(true);
    made_line(x.made, "salt", 5);
    made_portions(x.made, 1);
    find(&x);
    assert_true(x.remedies.count == 0 && x.remedies.refusal.length == 0);
    made_close(x.made);
    /* less of what nobody knows would tell no more */
    x = ask(true);
    made_line(x.made, "untested", 100);
    made_portions(x.made, 1);
    find(&x);
    assert_int_equal(x.stand.standing, STANDING_UNKNOWN);
    assert_true(x.remedies.count == 0 && x.remedies.refusal.length == 0);
    /* but what is over beside it can be mended */
    made_line(x.made, "onion", 20);
    find(&x);
    says(&x, 0,
         "Use 10 g of chives instead of the onion (stir it in last). The dish loses body. How much "
         "fructose in excess of glucose the untested holds is not known, and stays so.");
    check_all(&x, STANDING_UNKNOWN);
    made_close(x.made);
}

static void
tells_lines_of_one_name_apart(void **state)
{
    (void)state;
    struct asked x = ask(false);
    made_line(x.made, "leek", 5);
    made_option(x.made, made_ingredient(x.made, true),
                made_weighed(x.made, "leek", span_exact(50)));
    made_portions(x.made, 2);
    find(&x);
    says(&x, 0, "Leave out the leek (the second listed).");
    check_all(&x, STANDING_WITHIN);
    made_close(x.made);
}

/* 0.18 + 0.18 + 0.19 + 0.14 + 0.18 g against 0.5 g of a sitting: each food alone would do */
static void
tells_what_is_too_much_together(void **state)
{
    (void)state;
    static const struct {
        const char *food;
        double grams;
    } lines[] = {{"onion", 9}, {"leek", 9}, {"plum", 24}, {"honey", 2}, {"beans", 45}};
    struct asked x = ask(false);
    for (size_t i = 0; i < 5; i++)
        made_line(x.made, lines[i].food, lines[i].grams);
    made_portions(x.made, 1);
    find(&x);
    refuses(&x,
            "No small change is enough. Too much together: plum, onion and leek. As it is, this "
            "is no dish for the strict phase.");
    made_close(x.made);
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
    static const char *const names[] = {"honey", "syrup", "leek", "onion", "plum", "salt", "milk"};
    size_t given = 0, refused = 0;
    for (uint64_t n = 1; n <= 300; n++) {
        uint64_t seed = n * 0x9E3779B97F4A7C15ULL;
        struct asked x = ask(n % 2 == 0);
        struct made *m = x.made;
        for (size_t i = 0; i < 4; i++) {
            struct ingredient *in = made_ingredient(m, chance(&seed) < 0.2);
            size_t options = chance(&seed) < 0.3 ? 2 : 1;
            for (size_t o = 0; o < options; o++) {
                const char *name = names[(size_t)(chance(&seed) * 7) % 7];
                double amount = chance(&seed);
                made_option(
                    m, in,
                    chance(&seed) < 0.4
                        ? made_spooned(m, name, floor(1 + amount * 5), "tsp", 1.1)
                        : made_weighed(m, name, span_make(amount * 50, amount * 60, amount * 65)));
            }
        }
        made_portions(m, floor(1 + chance(&seed) * 5));
        find(&x);
        check_all(&x, STANDING_WITHIN);
        if (x.stand.standing == STANDING_WITHIN && x.remedies.sought)
            fail_msg("dish %llu is within and mended", (unsigned long long)n);
        given += x.remedies.count;
        refused += x.remedies.refusal.length > 0;
        made_close(m);
    }
    assert_true(given > 150);
    assert_true(refused > 20);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(takes_the_other_option_first),
        cmocka_unit_test(leaves_out_what_is_optional_or_garnish),
        cmocka_unit_test(swaps_by_the_table),
        cmocka_unit_test(swaps_keep_what_the_dish_is),
        cmocka_unit_test(cuts_a_line_to_a_third_at_least),
        cmocka_unit_test(cuts_in_the_cooks_measures),
        cmocka_unit_test(cuts_two_lines_where_one_is_not_enough),
        cmocka_unit_test(swaps_up_to_three_foods),
        cmocka_unit_test(makes_the_portion_smaller_last),
        cmocka_unit_test(says_nothing_of_what_is_within_or_unknown),
        cmocka_unit_test(tells_lines_of_one_name_apart),
        cmocka_unit_test(tells_what_is_too_much_together),
        cmocka_unit_test(keeps_what_it_says_on_random_dishes),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
