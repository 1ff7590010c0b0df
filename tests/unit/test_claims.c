/* Claims held against the larder over every variant. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "judge/claim_words.h"
#include "judge/claims.h"
#include "judge/health.h"
#include "whole_post.h"

static const struct tried {
    const char *claim, *lines;
    enum grounds grounds;
    int rule; /* -1: none */
    const char *url;
} tried[] = {
    {"vegan", "200 g rice; 1 tbsp olive oil", GROUNDS_HOLDS, -1, "https://schema.org/VeganDiet"},
    {"vegan", "200 g rice; 2 eggs", GROUNDS_FALSE, RULE_CLAIM_FALSE,
     "https://schema.org/VeganDiet"},
    {"vegan", "200 g rice; 1 tbsp honey or maple syrup", GROUNDS_ON_CHOICE, RULE_CLAIM_ON_CHOICE,
     "https://schema.org/VeganDiet"},
    {"vegan", "200 g rice; 50 g parmesan (optional)", GROUNDS_ON_CHOICE, RULE_CLAIM_ON_CHOICE,
     "https://schema.org/VeganDiet"},
    {"vegan", "200 g rice; 50 g vegan butter", GROUNDS_HOLDS, -1, "https://schema.org/VeganDiet"},
    {"vegan", "200 g rice; 50 g blorptak", GROUNDS_UNKNOWN, RULE_CLAIM_UNKNOWN,
     "https://schema.org/VeganDiet"},
    {"vegetarian", "200 g rice; 2 eggs", GROUNDS_HOLDS, -1, "https://schema.org/VegetarianDiet"},
    {"vegetarian", "200 g rice; 100 g chicken breast", GROUNDS_FALSE, RULE_CLAIM_FALSE,
     "https://schema.org/VegetarianDiet"},
    {"gluten-free", "200 g plain flour", GROUNDS_FALSE, RULE_CLAIM_FALSE,
     "https://schema.org/GlutenFreeDiet"},
    {"gluten-free", "200 g rolled oats", GROUNDS_LABEL, RULE_CLAIM_LABEL,
     "https://schema.org/GlutenFreeDiet"},
    {"gluten-free", "200 g gluten-free rolled oats", GROUNDS_HOLDS, -1,
     "https://schema.org/GlutenFreeDiet"},
    {"gluten-free", "200 g rolled oats, certified gluten-free", GROUNDS_HOLDS, -1,
     "https://schema.org/GlutenFreeDiet"},
    {"gluten-free", "200 g gluten-free plain flour", GROUNDS_HOLDS, -1,
     "https://schema.org/GlutenFreeDiet"},
    /* what was not understood, or only guessed, keeps a promise from being made */
    {"vegan", "200 g carrots, tossed in butter", GROUNDS_UNKNOWN, RULE_CLAIM_UNKNOWN,
     "https://schema.org/VeganDiet"},
    {"gluten-free", "200 g chiken breast", GROUNDS_UNKNOWN, RULE_CLAIM_UNKNOWN,
     "https://schema.org/GlutenFreeDiet"},
    {"gluten-free", "200 g chicken breast, patted dry", GROUNDS_HOLDS, -1,
     "https://schema.org/GlutenFreeDiet"},
    {"nut-free", "250 ml oat, soy or almond milk", GROUNDS_ON_CHOICE, RULE_CLAIM_ON_CHOICE, NULL},
    {"GF", "200 g rice", GROUNDS_HOLDS, -1, "https://schema.org/GlutenFreeDiet"},
    {"dairy-free", "200 ml milk", GROUNDS_FALSE, RULE_CLAIM_FALSE, NULL},
    {"dairy-free", "200 ml almond milk", GROUNDS_HOLDS, -1, NULL},
    {"nut-free", "50 g walnuts", GROUNDS_FALSE, RULE_CLAIM_FALSE, NULL},
    {"nut-free", "50 g peanut butter", GROUNDS_FALSE, RULE_CLAIM_FALSE, NULL},
    {"nut-free", "50 g pumpkin seeds", GROUNDS_HOLDS, -1, NULL},
    {"egg-free", "2 eggs", GROUNDS_FALSE, RULE_CLAIM_FALSE, NULL},
    {"soy-free", "200 g firm tofu", GROUNDS_FALSE, RULE_CLAIM_FALSE, NULL},
    {"low-lactose", "200 ml rice milk", GROUNDS_HOLDS, -1, "https://schema.org/LowLactoseDiet"},
    {"low-lactose", "1 litre milk", GROUNDS_FALSE, RULE_CLAIM_FALSE,
     "https://schema.org/LowLactoseDiet"},
    {"lactose-free", "1 litre milk", GROUNDS_FALSE, RULE_CLAIM_FALSE,
     "https://schema.org/LowLactoseDiet"},
    {"3 ingredients", "200 g rice; 100 g carrots; 1 tsp salt; 500 ml water; 1 tbsp olive oil",
     GROUNDS_HOLDS, -1, NULL},
    {"two ingredients", "200 g rice; 100 g carrots; 1 tbsp olive oil", GROUNDS_FALSE,
     RULE_CLAIM_FALSE, NULL},
    {"5-ingredient", "200 g rice; 100 g carrots (optional)", GROUNDS_HOLDS, -1, NULL},
    {"no added sugar", "2 tbsp maple syrup", GROUNDS_FALSE, RULE_CLAIM_FALSE, NULL},
    {"no added sugar", "200 g strawberries", GROUNDS_HOLDS, -1, NULL},
    {"under 30 min", "200 g rice", GROUNDS_FALSE, RULE_TIME_CLAIM, NULL},
    {"ready in an hour", "200 g rice", GROUNDS_HOLDS, -1, NULL},
    {"40 minutes", "200 g rice", GROUNDS_HOLDS, -1, NULL},
    {"one pot", "200 g rice", GROUNDS_FALSE, RULE_CLAIM_FALSE, NULL},
    {"healthy", "200 g rice", GROUNDS_UNKNOWN, RULE_CLAIM_HEALTH, NULL},
    {"safe for everyone", "200 g rice", GROUNDS_UNKNOWN, RULE_CLAIM_HEALTH, NULL},
    {"kosher", "200 g rice", GROUNDS_UNKNOWN, RULE_CLAIM_UNKNOWN, NULL},
    {"make-ahead", "200 g rice", GROUNDS_UNKNOWN, -1, NULL},
};

static void
judge(struct arena *a, const char *bytes, struct whole_post *w, struct claims *claims)
{
    read_whole_post(a, bytes, w);
    const struct judging *j = judging(a, w);
    struct method_foods foods;
    unlisted_judge(j, &foods);
    claims_judge(j, &w->stand, &foods, claims);
}

static void
finds_the_grounds_of_each_claim(void **state)
{
    (void)state;
    size_t wrong = 0;
    for (size_t i = 0; i < sizeof tried / sizeof *tried; i++) {
        const struct tried *t = &tried[i];
        struct arena *a = arena_open(16384);
        struct whole_post w;
        struct claims c;
        judge(a,
              compose(a, "A dish", text_format(a, "claims: [\"%s\"]\n", t->claim), t->lines,
                      "Simmer in a saucepan for 40 minutes.|Fry in another pan until crisp.", NULL),
              &w, &c);
        assert_int_equal(c.count, 1);
        bool rule = t->rule < 0
                        ? w.notices.count == 0
                        : count_rule(&w.notices, (enum rule)t->rule) == 1 && w.notices.count == 1;
        bool url = t->url == NULL
                       ? c.items[0].diet_url == NULL
                       : c.items[0].diet_url != NULL && strcmp(c.items[0].diet_url, t->url) == 0;
        if (c.items[0].grounds != t->grounds || !rule || !url) {
            print_error("%s of %s: grounds %d, %zu notices, %.*s\n", t->claim, t->lines,
                        (int)c.items[0].grounds, w.notices.count, SLICE_ARGS(c.items[0].because));
            wrong++;
        }
        arena_close(a);
    }
    assert_int_equal(wrong, 0);
}

static void
lists_allergens_and_diets(void **state)
{
    (void)state;
    struct arena *a = arena_open(16384);
    struct whole_post w;
    struct claims c;
    judge(a,
          compose(a, "A dish", "", "200 g plain flour; 20 g walnuts (optional); 200 ml milk",
                  "Mix.", NULL),
          &w, &c);
    size_t gluten = 0, nuts_on_choice = 0, milk = 0;
    for (size_t i = 0; i < c.allergen_count; i++) {
        const struct carried_allergen *one = &c.allergens[i];
        gluten += one->allergen == ALLERGEN_GLUTEN && !one->on_choice && one->ingredients[0] == 0;
        nuts_on_choice += one->allergen == ALLERGEN_NUTS && one->on_choice;
        milk += one->allergen == ALLERGEN_MILK && !one->on_choice && !one->may_carry;
    }
    assert_int_equal(gluten, 1);
    assert_int_equal(nuts_on_choice, 1);
    assert_int_equal(milk, 1);
    assert_false(c.diets[DIET_VEGAN]);
    assert_true(c.diets[DIET_VEGETARIAN]);
    arena_close(a);
}

static void
tells_promises_of_health_from_harmless_words(void **state)
{
    (void)state;
    static const struct {
        const char *prose;
        size_t count;
    } texts[] = {
        {"A healthy supper that cures bloating.", 1},
        {"This soup will detox you. It is good for your gut.", 2},
        {"Add a healthy pinch of salt. The salmon cures overnight.", 0},
        {"We do not call it healthy; it is lunch.", 0},
        {"Sweet treats for a cold day.", 0},
    };
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        struct arena *a = arena_open(16384);
        struct post post = {0};
        struct notices notices = {.arena = a};
        struct slice file = text_formatted(a, "---\ntitle: x\n---\n%s\n", texts[i].prose);
        post.range = (struct body_range){file, 17, file.length, 4, tables.words};
        body_read(a, &post.range, BODY_RECIPE, &(struct notices){.arena = a}, &post.body);
        health_judge(a, &post, &notices);
        if (count_rule(&notices, RULE_CLAIM_HEALTH) < texts[i].count ||
            (texts[i].count == 0 && notices.count > 0))
            fail_msg("%s: %zu", texts[i].prose, notices.count);
        if (notices.count > 0)
            assert_int_equal(notices.items[0].place.line, 4);
        arena_close(a);
    }
}

static void
a_mistyped_claim_has_a_nearest_one(void **state)
{
    (void)state;
    static const struct {
        const char *front_value, *near;
    } claims[] = {
        {"glutenfree", "gluten-free"},
        {"GlutenFree", "gluten-free"},
        {"lowlactose", "low-lactose"},
        {"veagn", "vegan"},
        {"nutfree", "nut-free"},
        {"one-pott", "one-pot"},
        {"under 30 minuets", "minutes"},
        {"5 ingrediants", "ingredients"},
        {"paleo", NULL},
        {"high-lactose", NULL},
        {"x", NULL},
        {"", NULL},
    };
    struct arena *a = arena_open(16384);
    for (size_t i = 0; i < sizeof claims / sizeof *claims; i++) {
        const char *near = claim_words_nearest(a, tables.words, slice_of(claims[i].front_value));
        if ((near == NULL) != (claims[i].near == NULL) ||
            (near != NULL && strcmp(near, claims[i].near) != 0))
            fail_msg("%s: %s", claims[i].front_value, near != NULL ? near : "none");
    }
    arena_close(a);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(finds_the_grounds_of_each_claim),
        cmocka_unit_test(a_mistyped_claim_has_a_nearest_one),
        cmocka_unit_test(lists_allergens_and_diets),
        cmocka_unit_test(tells_promises_of_health_from_harmless_words),
    };
    return cmocka_run_group_tests(tests, load_tables, drop_tables);
}
