#include "own_tables.h"

#include "english.h"

#include "tables/serve_settle.h"

#include "tables/food_kin.h"

#include "tables/food_names.h"
#include "tables/food_words.h"
#include "tables/larder.h"
#include "tables/table_ask.h"

static struct found
find(const struct tables *t, struct arena *a, const char *region, enum measured_by by,
     const char *name, const char *after, struct reads *r)
{
    struct sought s = {.name = slice_of(name),
                       .after = slice_of(after),
                       .region = measures_region(&t->measures, slice_of(region)),
                       .by = by};
    return food_find(t->larder, a, &s, r);
}

struct name_row {
    const char *region;
    enum measured_by by;
    const char *name, *after, *food;
};

/* NULL: not found, rather than found as something that it is not */
static const struct name_row name_rows[] = {
    {"uk", BY_WEIGHT, "bananas", "", "banana"},
    {"uk", BY_PIECE, "large ripe organic bananas", "", "banana"},
    {"us", BY_CUP, "fresh blueberries", "", "blueberry"},
    {"au", BY_CUP, "cornflour", "", "cornflour-australian"},
    {"uk", BY_CUP, "corn flour", "", "cornflour"},
    {"us", BY_CUP, "cornflour", "", "maize-flour"},
    {"us", BY_SPOON, "cornstarch", "", "cornstarch"},
    {"us", BY_SPOON, "pepper", "", "black-pepper"},
    {"us", BY_PIECE, "red peppers", "", "red-pepper"},
    {"au", BY_PIECE, "capsicum", "", "red-pepper"},
    {"uk", BY_BUNCH, "coriander", "", "coriander"},
    {"us", BY_BUNCH, "fresh cilantro", "", "coriander"},
    {"uk", BY_WEIGHT, "mince", "", "beef-mince"},
    {"nz", BY_PIECE, "kumara", "", "sweet-potato"},
    {"us", BY_PIECE, "zucchini", "", "courgette"},
    {"us", BY_PIECE, "rutabaga", "", "swede"},
    {"uk", BY_SPOON, "crème fraîche", "", "creme-fraiche"},
    {"us", BY_PIECE, "jalapeños", "", "jalapeno"},
    {"uk", BY_CUP, "flour, plain", "", "plain-flour"},
    {"uk", BY_WEIGHT, "tinned tomatoes", "", "tomato-canned"},
    {"us", BY_WEIGHT, "apricots", "dried", "apricot-dried"},
    {"us", BY_WEIGHT, "apricots", "halved", "apricot"},
    {"us", BY_PIECE, "scallions", "green tops only", "spring-onion-green"},
    {"uk", BY_CUP, "chopped spring onions", "green part only", "spring-onion-green"},
    {"uk", BY_PIECE, "leeks", "white part only", "leek-white"},
    {"uk", BY_PIECE, "leeks", "white and green parts", "leek"},
    {"uk", BY_WEIGHT, "peppers", "green ones only if there are no red", "green-pepper"},
    {"us", BY_PIECE, "onion", "red", "red-onion"},
    {"us", BY_CUP, "milk", "lactose-free", "lactose-free-milk"},
    {"us", BY_CUP, "rice", "brown", "brown-rice"},
    {"us", BY_CUP, "rice", "cooked", "cooked-rice"},
    {"us", BY_CUP, "rice", "cooked and cooled", "cooked-rice"},
    {"us", BY_CUP, "rice", "cooked until tender", "rice"},
    {"us", BY_CUP, "rice", "cooked to taste", "rice"},
    {"us", BY_WEIGHT, "salmon", "cooked and flaked", "cooked-salmon"},
    {"us", BY_PIECE, "carrots", "cooked", "carrot"},
    {"us", BY_CUP, "cooked pasta shells", "", "cooked-pasta"},
    {"uk", BY_CUP, "coconut", "freshly grated", "coconut"},
    {"uk", BY_CUP, "coconut", "fresh or desiccated", "desiccated-coconut"},
    {"us", BY_WEIGHT, "mackerel", "in tomato sauce", NULL},
    {"us", BY_WEIGHT, "sardines", "in olive oil", "sardines"},
    {"us", BY_WEIGHT, "dried ancho chilli", "", "ancho"},
    {"us", BY_CUP, "blueberries", "fresh or frozen", "blueberry"},
    {"us", BY_WEIGHT, "apricots", "fresh or dried", "apricot"},
    {"us", BY_CUP, "pineapple chunks", "in juice", "pineapple-canned"},
    {"us", BY_WEIGHT, "salmon", "in lemon juice", "salmon"},
    {"us", BY_CUP, "milk chocolate", "", "milk-chocolate"},
    {"us", BY_CUP, "chocolate milk", "", "chocolate-milk"},
    {"us", BY_CUP, "milk", "chocolate", "chocolate-milk"},
    {"us", BY_CUP, "potato salad", "", NULL},
    {"us", BY_CUP, "rice pudding", "", NULL},
    {"us", BY_CUP, "bread flour", "", "bread-flour"},
    {"us", BY_CUP, "flour bread", "", NULL},
    {"us", BY_CUP, "cream of coconut", "", "cream-of-coconut"},
    {"us", BY_CUP, "coconut cream", "", "coconut-cream"},
    {"us", BY_CUP, "butter of peanuts", "", "peanut-butter"},
    {"us", BY_CUP, "onions red", "", "red-onion"},
    {"uk", BY_WEIGHT, "cheese cheddar", "", "cheddar"},
    {"uk", BY_WEIGHT, "rice basmati", "", "basmati-rice"},
    {"us", BY_WEIGHT, "kale crisps", "", NULL},
    {"us", BY_WEIGHT, "crisp lettuce", "", "lettuce"},
    {"us", BY_WEIGHT, "bone marrow", "", NULL},
    {"us", BY_WEIGHT, "chicken skin", "", NULL},
    {"us", BY_WEIGHT, "skin-on bone-in chicken thighs", "", "chicken-thigh"},
    {"us", BY_WEIGHT, "tomatoes with garlic", "", NULL},
    {"us", BY_WEIGHT, "tomatoes", "with garlic", NULL},
    {"us", BY_PIECE, "lemon with peel", "", "lemon"},
    {"us", BY_WEIGHT, "carrots with tops", "", "carrot"},
    {"uk", BY_SPOON, "chilli powder", "", "chili-powder"},
    {"au", BY_SPOON, "chilli powder", "", "cayenne"},
    {"us", BY_SPOON, "kashmiri chilli powder", "", "cayenne"},
    {"us", BY_PIECE, "lemon", "juice only", "lemon"},
    {"us", BY_CUP, "dry quinoa", "", "quinoa"},
    {"us", BY_CUP, "low-sodium chicken broth", "", "chicken-stock"},
    {"uk", BY_WEIGHT, "gluten-free oats", "", "rolled-oats"},
    {"uk", BY_WEIGHT, "gluten-free plain flour", "", "gluten-free-plain-flour"},
    {"uk", BY_WEIGHT, "ground almonds", "", "almond-meal"},
    {"uk", BY_WEIGHT, "toasted walnuts", "", "walnut"},
    {"uk", BY_CUP, "sunflower oil for frying", "", "sunflower-oil"},
    {"uk", BY_WEIGHT, "grass-fed beef mince", "", "beef-mince"},
    {"uk", BY_PIECE, "ready-rolled gluten-free puff pastry", "", "gluten-free-pastry"},
    {"uk", BY_WEIGHT, "ready-to-eat dried apricots", "", "apricot-dried"},
    {"uk", BY_WEIGHT, "Greek-style soya yoghurt", "", "soy-yoghurt"},
    {"uk", BY_WEIGHT, "Maris Piper potatoes", "", "potato"},
    {"us", BY_CUP, "medium-ground cornmeal", "", "polenta"},
    {"uk", BY_WEIGHT, "bacon-style mince", "", NULL},
    {"uk", BY_WEIGHT, "ground cornmeal walnuts", "", NULL},
    {"uk", BY_WEIGHT, "smoked bananas", "", NULL},
    {"uk", BY_WEIGHT, "gluten-free couscous", "", NULL},
    {"uk", BY_WEIGHT, "banana crackers", "", NULL},
    {"uk", BY_WEIGHT, "bananna", "", "banana"},
    {"uk", BY_WEIGHT, "", "", NULL},
    {"uk", BY_WEIGHT, "fresh", "", NULL},
};

static void
names_find_their_foods(void **state)
{
    const struct tables *t = *state;
    struct arena *a = arena_open(1 << 16);
    for (size_t i = 0; i < sizeof name_rows / sizeof *name_rows; i++) {
        const struct name_row *row = &name_rows[i];
        struct found f = find(t, a, row->region, row->by, row->name, row->after, NULL);
        const char *id = f.food != NULL ? f.food->id : "none";
        if (strcmp(id, row->food != NULL ? row->food : "none") != 0)
            fail_msg("%s '%s' found %s, not %s", row->region, row->name, id,
                     row->food != NULL ? row->food : "none");
    }
    arena_close(a);
}

static void
forms_are_chosen_before_the_comma(void **state)
{
    const struct tables *t = *state;
    struct arena *a = arena_open(1 << 16);
    struct found before = find(t, a, "us", BY_CUP, "chopped walnuts", "", NULL);
    struct found after = find(t, a, "us", BY_CUP, "walnuts", "chopped", NULL);
    assert_true(before.form_said && strcmp(before.form->name, "chopped") == 0);
    assert_false(after.form_said);
    struct found packed = find(t, a, "us", BY_CUP, "firmly packed brown sugar", "", NULL);
    assert_string_equal(packed.form->name, "packed");
    packed = find(t, a, "us", BY_CUP, "brown sugar", "firmly packed", NULL);
    assert_string_equal(packed.form->name, "packed");
    struct found cloves = find(t, a, "us", BY_PIECE, "garlic cloves", "", NULL);
    assert_string_equal(cloves.food->id, "garlic");
    struct found peeled = find(t, a, "us", BY_WEIGHT, "peeled potatoes", "", NULL);
    assert_true(peeled.prepared);
    assert_false(find(t, a, "us", BY_WEIGHT, "potatoes", "peeled", NULL).prepared);
    arena_close(a);
}

static void
the_name_is_marked_in_the_words(void **state)
{
    const struct tables *t = *state;
    struct arena *a = arena_open(1 << 16);
    struct found f = find(t, a, "us", BY_CUP, "finely chopped red onion, raw", "", NULL);
    assert_string_equal(f.food->id, "red-onion");
    assert_int_equal(f.name_from, strlen("finely chopped "));
    assert_true(f.name_to >= strlen("finely chopped red onion"));
    arena_close(a);
}

static void
parts_and_tins_are_other_foods(void **state)
{
    const struct tables *t = *state;
    struct arena *a = arena_open(1 << 16);
    struct sought s = {.name = SLICE("limes"), .after = SLICE(""), .by = BY_PIECE, .part = "juice"};
    assert_string_equal(food_find(t->larder, a, &s, NULL).food->id, "lime-juice");
    s.part = "zest";
    assert_string_equal(food_find(t->larder, a, &s, NULL).food->id, "lime-zest");
    s = (struct sought){.name = SLICE("tomatoes"), .by = BY_WEIGHT, .tinned = true};
    assert_string_equal(food_find(t->larder, a, &s, NULL).food->id, "tomato-canned");
    s.tinned = false;
    assert_string_equal(food_find(t->larder, a, &s, NULL).food->id, "tomato");
    arena_close(a);
}

static void
near_misses_get_names(void **state)
{
    const struct tables *t = *state;
    struct arena *a = arena_open(1 << 16);
    struct found f = find(t, a, "uk", BY_PIECE, "bannana", "", NULL);
    assert_string_equal(f.food->id, "banana");
    assert_true(f.corrected);
    f = find(t, a, "uk", BY_PIECE, "banana", "", NULL);
    assert_false(f.corrected);
    f = find(t, a, "uk", BY_PIECE, "banabas", "", NULL); /* near, but it sounds otherwise */
    assert_null(f.food);
    assert_string_equal(f.nearest[0], "banana");
    f = find(t, a, "uk", BY_WEIGHT, "xyzzy", "", NULL);
    assert_null(f.nearest[0]);
    arena_close(a);
}

static struct larder *
larder_of(struct arena *a, const struct tables *t, const char *one, const char *two,
          struct notices *n)
{
    struct larder *l = larder_open(a, &t->measures, t->words);
    larder_add(l, yaml_of(a, one, n), n);
    if (two != NULL)
        larder_add(l, yaml_of(a, two, n), n);
    larder_close(l);
    return l;
}

static const char kettle[] =
    "foods:\n"
    "  red-thing: {name: red thing, names: {any: [thing]}, class: fruit,\n"
    "    forms: {whole: {density: {mid: 1, source: s, basis: published}}},\n"
    "    per-100-g: {fructan: {mid: 1, source: s, basis: published}}}\n"
    "  blue-thing: {name: blue thing, names: {any: [thing], au: [wombat]}, class: fruit,\n"
    "    forms: {whole: {}}}\n";

static void
equal_names_are_rivals(void **state)
{
    const struct tables *t = *state;
    struct arena *a = arena_open(1 << 16);
    struct notices n = {.arena = a};
    struct larder *l = larder_of(a, t, kettle, NULL, &n);
    assert_int_equal(n.count, 0);
    struct sought s = {.name = SLICE("things"), .by = BY_CUP};
    struct found f = food_find(l, a, &s, NULL);
    assert_string_equal(f.food->id, "red-thing");
    assert_string_equal(f.rival->id, "blue-thing");
    s.name = SLICE("blue thing");
    f = food_find(l, a, &s, NULL);
    assert_string_equal(f.food->id, "blue-thing");
    assert_null(f.rival);
    arena_close(a);
}

static void
a_blog_overrides_food_by_food(void **state)
{
    const struct tables *t = *state;
    struct arena *a = arena_open(1 << 16);
    struct notices n = {.arena = a};
    struct larder *l =
        larder_of(a, t, kettle,
                  "foods:\n"
                  "  blue-thing: {name: teal thing, class: fruit, forms: {whole: {}}}\n"
                  "  no-class: {name: none, forms: {whole: {}}}\n"
                  "  bad-figure: {name: bad, class: fruit, forms: {whole: {density: {mid: 1}}}}\n"
                  "  odd-key: {name: odd, class: fruit, colour: red, forms: {whole: {}}}\n",
                  &n);
    assert_int_equal(larder_count(l), 2);
    struct sought s = {.name = SLICE("teal thing"), .by = BY_CUP};
    assert_string_equal(food_find(l, a, &s, NULL).food->id, "blue-thing");
    s.name = SLICE("wombat"); /* the name went with the food that had it */
    assert_null(food_find(l, a, &s, NULL).food);
    assert_int_equal(n.count, 3);
    for (size_t i = 0; i < n.count; i++) {
        assert_int_equal(n.items[i].rule, RULE_TABLE_ROW_WRONG);
        assert_true(n.items[i].place.line == i + 3);
    }
    arena_close(a);
}

static void
every_read_can_be_asked_again(void **state)
{
    const struct tables *t = *state;
    struct arena *a = arena_open(1 << 16);
    struct reads r = reads_new(a);
    for (size_t i = 0; i < sizeof name_rows / sizeof *name_rows; i++) {
        const struct name_row *row = &name_rows[i];
        struct found f = find(t, a, row->region, row->by, row->name, row->after, &r);
        food_names(t->larder, a, slice_of(row->name), &r);
        for (int g = 0; f.food != NULL && g < GROUPS; g++) {
            food_content(f.food, (enum group)g, &r);
            food_kin(t->larder, f.food, (enum group)g, &r);
        }
        if (f.food == NULL)
            continue;
        food_nutrient(f.food, PROTEIN, &r);
        serves_of_food(f.food, f.form, 0, &r);
        foods_shown(f.food, 0, &r);
        foods_form_density(f.form, &r);
        foods_form_piece(f.form, "each", &r);
        foods_form_edible(f.form, &r);
    }
    struct sought tin = {.name = SLICE("chick-peas"),
                         .after = SLICE("drained & rinsed"),
                         .region = -1,
                         .by = BY_WEIGHT,
                         .part = "juice",
                         .tinned = true};
    food_find(t->larder, a, &tin, &r);
    assert_true(r.count > 200);
    for (size_t i = 0; i < r.count; i++) {
        const struct entry *e = r.items[i];
        uint64_t now = tables_ask(t, a, slice_of(e->key));
        if (now != e->digest)
            fail_msg("%s: %llx, asked again %llx", e->key, (unsigned long long)e->digest,
                     (unsigned long long)now);
    }
    arena_close(a);
}

static void
an_answer_that_changes_is_told(void **state)
{
    const struct tables *t = *state;
    struct arena *a = arena_open(1 << 16);
    struct notices n = {.arena = a};
    struct larder *before = larder_of(a, t, kettle, NULL, &n);
    struct larder *after = larder_of(
        a, t, kettle, "foods:\n  thing: {name: thing, class: fruit, forms: {whole: {}}}\n", &n);
    struct reads r = reads_new(a), later = reads_new(a);
    struct sought s = {.name = SLICE("thing"), .by = BY_CUP};
    food_find(before, a, &s, &r);
    food_find(after, a, &s, &later);
    const struct entry *one = r.items[0], *two = later.items[0];
    assert_string_equal(one->key, two->key);
    assert_true(one->digest != two->digest);
    arena_close(a);
}

static void
stems_of_stems_are_themselves(void **state)
{
    (void)state;
    static const char *const texts[] = {"Tomatoes, potatoes & mangoes",
                                        "berries cherries cookies pies",
                                        "leaves loaves halves",
                                        "olives chives cloves endives",
                                        "peaches radishes boxes glasses",
                                        "asparagus couscous hummus",
                                        "molasses swiss brussels",
                                        "Crème fraîche jalapeño Gruyère",
                                        "baker's bass's",
                                        "chili chile chillies",
                                        "70% cocoa 2% milk",
                                        "tinned yogurt skimmed"};
    struct arena *a = arena_open(1 << 12);
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        struct food_word words[FOOD_WORDS_MOST], again[FOOD_WORDS_MOST];
        size_t count = food_words_split(a, english(), slice_of(texts[i]), words);
        assert_true(count > 0);
        for (size_t k = 0; k < count; k++) {
            assert_int_equal(food_words_split(a, english(), words[k].stem, again), 1);
            assert_true(slice_equal(words[k].stem, again[0].stem));
        }
    }
    struct food_word words[FOOD_WORDS_MOST];
    food_words_split(a, english(), SLICE("Crème BERRIES leaves"), words);
    assert_true(slice_is(words[0].stem, "creme") && slice_is(words[1].stem, "berry") &&
                slice_is(words[2].stem, "leaf"));
    arena_close(a);
}

static void
words_play_their_part(void **state)
{
    (void)state;
    static const struct {
        const char *word;
        enum word_part part;
    } rows[] = {{"a", WORD_GLUE},     {"fine", WORD_SOFT}, {"finely", WORD_HOW},
                {"fire", WORD_SOFT},  {"firm", WORD_SOFT}, {"but", WORD_GLUE},
                {"zested", WORD_HOW}, {"leek", WORD_NAME}};
    struct arena *a = arena_open(4096);
    struct food_word words[FOOD_WORDS_MOST];
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        assert_int_equal(food_words_split(a, english(), slice_of(rows[i].word), words), 1);
        assert_int_equal(words[0].part, rows[i].part);
    }
    arena_close(a);
}

/* an apostrophe at the end joins nothing, and nothing behind the text is read; marks part words */
static void
marks_end_words(void **state)
{
    (void)state;
    struct arena *a = arena_open(4096);
    struct food_word words[FOOD_WORDS_MOST];
    assert_int_equal(food_words_split(a, english(), (struct slice){"cooks'xyz", 6}, words), 1);
    assert_true(slice_is(words[0].stem, "cook"));
    assert_int_equal(food_words_split(a, english(), SLICE("salt÷pepper"), words), 2);
    assert_true(slice_is(words[0].stem, "salt") && slice_is(words[1].stem, "pepper"));
    arena_close(a);
}

int
main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(names_find_their_foods),
        cmocka_unit_test(forms_are_chosen_before_the_comma),
        cmocka_unit_test(the_name_is_marked_in_the_words),
        cmocka_unit_test(parts_and_tins_are_other_foods),
        cmocka_unit_test(near_misses_get_names),
        cmocka_unit_test(equal_names_are_rivals),
        cmocka_unit_test(a_blog_overrides_food_by_food),
        cmocka_unit_test(every_read_can_be_asked_again),
        cmocka_unit_test(an_answer_that_changes_is_told),
        cmocka_unit_test(stems_of_stems_are_themselves),
        cmocka_unit_test(marks_end_words),
        cmocka_unit_test(words_play_their_part),
    };
    return cmocka_run_group_tests(tests, take_repository_tables, drop_repository_tables);
}
