#include "tables/food_contents.h"

#include "read/yaml_value.h"

/* in 100 g of anything: fat alone makes 900 kcal, and salt is 39 % sodium */
static const double nutrient_most[NUTRIENTS] = {
    [ENERGY_KCAL] = 950,  [PROTEIN] = 100, [FAT] = 100,   [SATURATED_FAT] = 100,
    [CARBOHYDRATE] = 100, [SUGARS] = 100,  [FIBRE] = 100, [SODIUM_MG] = 40000,
};

static const char *
group_at(int i)
{
    return groups_word((enum group)i);
}

static const char *
nutrient_at(int i)
{
    return foods_nutrient_word((enum nutrient)i);
}

/* the groups' words, and "all" where it may stand among them */
static const char **
group_words_with(struct arena *a, const char *more)
{
    const char **words = arena_take_array(a, GROUPS + 2, sizeof *words);
    for (int g = 0; g < GROUPS; g++)
        words[g] = group_at(g);
    words[GROUPS] = more;
    return words;
}

void
food_contents_take(struct page *page, const struct yaml_node *map, struct food *f)
{
    struct figure_asked asked = {"content", "g per 100 g", 100, false, {NULL, 0}, true};
    struct figure figure = {.basis = BASIS_NONE};
    if (map == NULL || !row_map(&page->row, map, "per-100-g", "per-100-g: {lactose: {...}}"))
        return;
    for (size_t i = 0; i < map->count; i++) {
        const struct yaml_node *k = yaml_key(map, i), *v = yaml_value(map, i);
        enum group g;
        asked.of = k->text;
        if (slice_is(k->text, "all")) {
            food_page_figure(page, v, &asked, &figure);
        } else if (!groups_read(k->text, &g)) {
            row_word_unknown(&page->row, k, "per-100-g", "group of carbohydrates",
                             group_words_with(page->row.arena, "all"));
        } else if (!figure_known(&f->contents[g])) {
            food_page_figure(page, v, &asked, &f->contents[g]);
            f->contents_entry[g].changed = food_page_changed(page, yaml_get(v, "changed"));
        }
    }
    for (int g = 0; g < GROUPS && figure_known(&figure); g++)
        if (!figure_known(&f->contents[g]))
            f->contents[g] = figure;
}

void
food_bounds_take(struct page *page, const struct yaml_node *map, struct food *f)
{
    static const char *const keys[] = {"high", "source", "basis", "changed", NULL};
    struct figure_asked asked = {"bound", "g per 100 g", 100, false, {NULL, 0}, false};
    if (!row_map(&page->row, map, "bounds", "bounds: {polyols: {high: 0.3, ...}}"))
        return;
    for (size_t i = 0; i < map->count; i++) {
        const struct yaml_node *k = yaml_key(map, i), *v = yaml_value(map, i);
        const struct yaml_node *high = yaml_get(v, "high");
        struct figure bound = {.kind = FIGURE_BELOW};
        enum group g;
        asked.of = k->text;
        for (size_t j = 0; v->kind == YAML_MAP_NODE && j < v->count; j++)
            if (row_word(yaml_key(v, j)->text, keys) < 0)
                row_key_unknown(&page->row, yaml_key(v, j), "a bound", keys);
        if (!groups_read(k->text, &g))
            row_word_unknown(&page->row, k, "bounds", "group of carbohydrates",
                             group_words_with(page->row.arena, NULL));
        else if (high == NULL)
            row_wrong(&page->row, v,
                      "Write it as {high: (g per 100 g), source: \"...\", basis: published}.",
                      "the bound of “%.*s” has no high", SLICE_ARGS(k->text));
        else if (row_number(&page->row, high, "high of a bound", 0, 100, &bound.span.high) &&
                 figure_read_origin(&page->row, v, &asked, &bound)) {
            bound.source = larder_text(page->larder, slice_of(bound.source));
            f->bounds[g] = bound;
        }
    }
}

static void
take_nutrient(struct page *page, const struct yaml_node *k, const struct yaml_node *v,
              const struct figure *origin, struct food *f)
{
    static const char *const others[] = {"source", "basis", "changed", NULL};
    double amount;
    int n = 0;
    if (row_word(k->text, others) >= 0)
        return;
    while (n < NUTRIENTS && !slice_is(k->text, foods_nutrient_word((enum nutrient)n)))
        n++;
    if (n == NUTRIENTS) {
        row_word_unknown(&page->row, k, "nutrients", "nutrient",
                         row_words(page->row.arena, nutrient_at, NUTRIENTS));
    } else if (row_number(&page->row, v, foods_nutrient_word((enum nutrient)n), 0, nutrient_most[n],
                          &amount)) {
        f->nutrients[n] = *origin;
        f->nutrients[n].span = span_exact(amount);
    }
}

void
food_grounds_take(struct page *page, const struct yaml_node *map, struct food *f)
{
    static const char *const keys[] = {"source", "basis", "changed", NULL};
    const struct figure_asked asked = {.what = "the ground of allergens and diets"};
    if (map->kind != YAML_MAP_NODE) {
        row_wants(&page->row, map, "grounds", "a mapping",
                  "grounds: {source: \"a usual recipe: ...\", basis: practice}");
        return;
    }
    for (size_t i = 0; i < map->count; i++)
        if (row_word(yaml_key(map, i)->text, keys) < 0)
            row_key_unknown(&page->row, yaml_key(map, i), "grounds", keys);
    if (figure_read_origin(&page->row, map, &asked, &f->grounds))
        f->grounds.source = larder_text(page->larder, slice_of(f->grounds.source));
}

void
food_nutrients_take(struct page *page, const struct yaml_node *map, struct food *f)
{
    const struct figure_asked asked = {.what = "nutrients"};
    struct figure origin = {.basis = BASIS_NONE};
    if (map->kind != YAML_MAP_NODE) {
        row_wants(&page->row, map, "nutrients", "a mapping of nutrients",
                  "nutrients: {source: \"...\", basis: published, energy-kcal: 52, ...}");
        return;
    }
    if (!figure_read_origin(&page->row, map, &asked, &origin))
        return;
    origin.source = larder_text(page->larder, slice_of(origin.source));
    for (size_t i = 0; i < map->count; i++)
        take_nutrient(page, yaml_key(map, i), yaml_value(map, i), &origin, f);
}
