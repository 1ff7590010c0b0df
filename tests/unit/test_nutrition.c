/* Nutrition held against sums done from the cited figures, and against the rounding of labels. */
#include "made_dish.h"

#include "reckon/nutrition.h"

/* US Department of Agriculture, National Nutrient Database for Standard Reference: NDB 20314 wheat
 * flour is left out here on purpose; 20038 oats, 01077 whole milk, 19296 honey, 04053 olive oil,
 * 02047 salt, 12006 chia; per 100 g: kcal, protein, fat, saturated, carbohydrate, sugars, fibre, mg
 * sodium */
static const char foods[] =
    "foods:\n"
    "  oats: {name: oats, class: grain, forms: {whole: {}}, nutrients: {source: sr28 20038, basis: "
    "published, energy-kcal: 389, protein: 16.89, fat: 6.90, saturated-fat: 1.217, carbohydrate: "
    "66.27, sugars: 0.99, fibre: 10.6, sodium-mg: 2}}\n"
    "  milk: {name: milk, class: dairy, forms: {whole: {}}, nutrients: {source: sr28 01077, basis: "
    "published, energy-kcal: 61, protein: 3.15, fat: 3.25, saturated-fat: 1.865, carbohydrate: "
    "4.80, sugars: 5.05, fibre: 0, sodium-mg: 43}}\n"
    "  honey: {name: honey, class: other, forms: {whole: {}}, nutrients: {source: sr28 19296, "
    "basis: published, energy-kcal: 304, protein: 0.30, fat: 0, saturated-fat: 0, carbohydrate: "
    "82.40, sugars: 82.12, fibre: 0.2, sodium-mg: 4}}\n"
    "  oil: {name: oil, class: other, forms: {whole: {}}, nutrients: {source: sr28 04053, basis: "
    "published, energy-kcal: 884, protein: 0, fat: 100, saturated-fat: 13.808, carbohydrate: 0, "
    "sugars: 0, fibre: 0, sodium-mg: 2}}\n"
    "  salt: {name: salt, class: other, forms: {whole: {}}, nutrients: {source: sr28 02047, basis: "
    "published, energy-kcal: 0, protein: 0, fat: 0, saturated-fat: 0, carbohydrate: 0, sugars: 0, "
    "fibre: 0, sodium-mg: 38758}}\n"
    "  chia: {name: chia, class: seed, forms: {whole: {}}, nutrients: {source: sr28 12006, basis: "
    "published, energy-kcal: 486, protein: 16.54, fat: 30.74, saturated-fat: 3.330, carbohydrate: "
    "42.12, fibre: 34.4, sodium-mg: 16}}\n"
    "  mystery: {name: mystery, class: other, forms: {whole: {}}}\n";

static struct nutrition
reckon(struct made *m)
{
    struct nutrition n;
    nutrition_reckon(m->arena, &m->dish, &m->reads, &n);
    return n;
}

/* porridge for two: 100 g oats, 500 g milk, 20 g honey
 * protein 16.89 + 15.75 + 0.06 = 32.70 / 2 = 16.35
 * fat 6.90 + 16.25 = 23.15 / 2 = 11.575
 * carbohydrate 66.27 + 24.00 + 16.48 = 106.75 / 2 = 53.375; fibre 10.6 + 0.04 = 10.64 / 2 = 5.32
 * kJ: 11.575 x 37 + 16.35 x 17 + (53.375 - 5.32) x 17 + 5.32 x 8 = 428.275 + 277.95 + 816.935 +
 * 42.56 = 1565.72; kcal: 104.175 + 65.4 + 192.22 + 10.64 = 372.435
 * sodium 2 + 215 + 0.8 = 217.8 / 2 = 108.9 mg; salt 0.27225 g */
static void
adds_up_porridge(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    made_line(m, "oats", 100);
    made_line(m, "milk", 500);
    made_line(m, "honey", 20);
    made_portions(m, 2);
    struct nutrition n = reckon(m);
    assert_true(n.given);
    assert_near(n.coverage, 1, 1e-9);
    assert_near(n.portion_grams, 310, 1e-9);
    assert_near(n.amount[PROTEIN], 16.35, 1e-9);
    assert_near(n.amount[FAT], 11.575, 1e-9);
    assert_near(n.amount[CARBOHYDRATE], 53.375, 1e-9);
    assert_near(n.available_carbohydrate, 48.055, 1e-9);
    assert_near(n.amount[FIBRE], 5.32, 1e-9);
    assert_near(n.energy_kj, 1565.72, 1e-6);
    assert_near(n.energy_kcal, 372.435, 1e-6);
    assert_near(n.salt, 0.27225, 1e-9);
    made_close(m);
}

/* dressing for four: 60 g oil, 5 g honey, 2 g salt
 * fat 60 / 4 = 15; saturated 8.2848 / 4 = 2.0712; carbohydrate 4.12 / 4 = 1.03, fibre 0.0025
 * sodium 1.2 + 0.2 + 775.16 = 776.56 / 4 = 194.14 mg; salt 0.48535 g
 * kJ: 15 x 37 + 0.00375 x 17 + 1.0275 x 17 + 0.0025 x 8 = 572.55125 */
static void
adds_up_a_dressing(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    made_line(m, "oil", 60);
    made_line(m, "honey", 5);
    made_line(m, "salt", 2);
    made_portions(m, 4);
    struct nutrition n = reckon(m);
    assert_true(n.given);
    assert_near(n.amount[FAT], 15, 1e-9);
    assert_near(n.amount[SATURATED_FAT], 2.0712, 1e-9);
    assert_near(n.amount[SODIUM_MG], 194.14, 1e-9);
    assert_near(n.salt, 0.48535, 1e-9);
    assert_near(n.energy_kj, 572.55125, 1e-6);
    made_close(m);
}

/* chia pudding for one: 40 g chia, 200 g milk. Chia has no figure for sugars: 200 / 240 = 83 %
 * protein 6.616 + 6.3 = 12.916; fat 12.296 + 6.5 = 18.796; fibre 13.76
 * carbohydrate 16.848 + 9.6 = 26.448; available 12.688
 * kcal 169.164 + 51.664 + 50.752 + 27.52 = 299.1 */
static void
leaves_out_a_nutrient_without_figures(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    made_line(m, "chia", 40);
    made_line(m, "milk", 200);
    made_portions(m, 1);
    struct nutrition n = reckon(m);
    assert_true(n.given);
    assert_false(n.known[SUGARS]);
    assert_true(n.known[PROTEIN]);
    assert_near(n.energy_kcal, 299.1, 1e-6);
    made_close(m);
}

static void
needs_figures_for_95_percent(void **state)
{
    (void)state;
    struct made *m = made_open(foods);
    made_line(m, "milk", 95);
    made_line(m, "mystery", 5);
    made_portions(m, 1);
    assert_true(reckon(m).given); /* 95 % exactly */
    made_line(m, "mystery", 1);
    struct nutrition n = reckon(m);
    assert_false(n.given);
    assert_int_equal(n.missing_count, 2);
    assert_int_equal(n.missing[0], 1);
    made_close(m);
    /* an amount that cannot be weighed may be any part of the whole */
    m = made_open(foods);
    made_line(m, "milk", 100);
    made_line(m, "oats", 1);
    m->dish.ingredients[1].options[0].helpings[0].weighing.known = false;
    made_portions(m, 1);
    assert_false(reckon(m).given);
    made_close(m);
}

/* 21 CFR 101.9(c)(1)-(7); European Commission guidance of December 2012, table 4 */
static const struct written {
    const char *manner;
    enum nutrient nutrient;
    double amount;
    const char *words;
} written[] = {
    {"us", ENERGY_KCAL, 4.9, "0"},
    {"us", ENERGY_KCAL, 47.4, "45"},
    {"us", ENERGY_KCAL, 50, "50"},
    {"us", ENERGY_KCAL, 372.4, "370"},
    {"us", FAT, 0.49, "0"},
    {"us", FAT, 2.8, "3"},
    {"us", FAT, 2.7, "2.5"},
    {"us", FAT, 11.575, "12"},
    {"us", SODIUM_MG, 4, "0"},
    {"us", SODIUM_MG, 108.9, "110"},
    {"us", SODIUM_MG, 217.8, "220"},
    {"us", PROTEIN, 0.4, "0"},
    {"us", PROTEIN, 0.7, "<1"},
    {"us", CARBOHYDRATE, 53.4, "53"},
    {"eu", ENERGY_KCAL, 372.4, "372"},
    {"eu", FAT, 11.6, "12"},
    {"eu", FAT, 2.84, "2.8"},
    {"eu", FAT, 0.4, "<0.5"},
    {"eu", FAT, 0, "0"},
    {"eu", SATURATED_FAT, 0.3, "0.3"},
    {"eu", SATURATED_FAT, 0.05, "<0.1"},
    {"eu", PROTEIN, 16.35, "16"},
};

static void
rounds_as_labels_do(void **state)
{
    (void)state;
    struct arena *a = arena_open(4096);
    for (size_t i = 0; i < sizeof written / sizeof *written; i++) {
        struct text t = text_new(a);
        nutrition_write(&t, written[i].manner, written[i].nutrient, written[i].amount);
        if (!slice_is(text_slice(&t), written[i].words))
            fail_msg("%s %d %g: “%s”, not “%s”", written[i].manner, (int)written[i].nutrient,
                     written[i].amount, t.bytes, written[i].words);
    }
    static const struct {
        double grams;
        const char *words;
    } salts[] = {{0.27225, "0.27"}, {1.26, "1.3"}, {0.01, "<0.01"}, {0, "0"}};
    for (size_t i = 0; i < 4; i++) {
        struct text t = text_new(a);
        nutrition_write_salt(&t, salts[i].grams);
        assert_string_equal(t.bytes, salts[i].words);
    }
    arena_close(a);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(adds_up_porridge),
        cmocka_unit_test(adds_up_a_dressing),
        cmocka_unit_test(leaves_out_a_nutrient_without_figures),
        cmocka_unit_test(needs_figures_for_95_percent),
        cmocka_unit_test(rounds_as_labels_do),
    };
    return cmocka_run_group_tests_name("nutrition", tests, NULL, NULL);
}
