#include "tables/label_rows.h"

#include <math.h>

#include "read/label_list.h"
#include "read/yaml_source.h"
#include "read/yaml_value.h"
#include "tables/label.h"

/* What a figure of a packet may be off by: 21 CFR 101.9(g)(5) lets sugars be a fifth above what is
 * declared; the European guidance on tolerances of December 2012 is wider for small figures. Both
 * from memory. */
static const double OFF = 0.2;
/* g: what a declared 0 may hide (the same guidance, 1.2.6 and annex; 21 CFR 101.9(c); from memory)
 */
static const double ZERO_HIDES = 0.5;

/* kilojoules become kilocalories, and salt sodium, in g */
static const struct {
    const char *word;
    int nutrient; /* NUTRIENTS, NUTRIENTS + 1: polyols, starch */
    double times; /* makes it that */
} figures[] = {
    {"energy-kcal", ENERGY_KCAL, 1},
    {"energy-kj", ENERGY_KCAL, 1 / 4.184},
    {"protein", PROTEIN, 1},
    {"fat", FAT, 1},
    {"saturated-fat", SATURATED_FAT, 1},
    {"carbohydrate", CARBOHYDRATE, 1},
    {"sugars", SUGARS, 1},
    {"fibre", FIBRE, 1},
    {"sodium-mg", SODIUM_MG, 0.001},
    {"salt", SODIUM_MG, 0.4},
    {"polyols", NUTRIENTS, 1},
    {"starch", NUTRIENTS + 1, 1},
};

enum { FIGURES = sizeof figures / sizeof *figures };

static const char *
figure_at(int i)
{
    return figures[i].word;
}

/* "30 g", "<0.5", 30: the number, and whether it is less than that */
static bool
plain_amount(struct slice text, double *value, double *half, bool *less)
{
    text = slice_trim(text);
    *less = slice_begins(text, "<");
    if (*less)
        text = slice_trim(slice_part(text, 1, text.length));
    if (slice_ends(text, "g"))
        text = slice_trim(slice_part(text, 0, text.length - 1));
    const struct yaml_node number = {.kind = YAML_SCALAR_NODE, .text = text};
    const size_t point = slice_find_byte(text, '.', 0);
    *half = 0.5;
    for (size_t i = point == SIZE_MAX ? text.length : point + 1; i < text.length; i++)
        *half /= 10;
    return yaml_number(&number, value) && *value >= 0;
}

static void
take_grams(struct page *page, const struct yaml_node *node, const char *part, double *out)
{
    double value, half;
    bool less;
    if (node->kind == YAML_SCALAR_NODE && plain_amount(node->text, &value, &half, &less) && !less &&
        value > 0)
        *out = value;
    else
        row_wants(&page->row, node, part, "an amount in grams", "it as 30 g");
}

static struct label_amount *
amount_of(struct label *label, int nutrient)
{
    return nutrient == NUTRIENTS       ? &label->polyols
           : nutrient == NUTRIENTS + 1 ? &label->starch
                                       : &label->nutrients[nutrient];
}

/* figures are for `per` g; those that nothing stands behind "<" for are between both */
static void
take_figure(struct page *page, const struct yaml_node *key, const struct yaml_node *node,
            double per, struct label *label)
{
    double value, half;
    bool less;
    int i = 0;
    while (i < FIGURES && !slice_is(key->text, figures[i].word))
        i++;
    if (i == FIGURES) {
        row_word_unknown(&page->row, key, "nutrition", "figure of a packet",
                         row_words(page->row.arena, figure_at, FIGURES));
        return;
    }
    if (node->kind != YAML_SCALAR_NODE || !plain_amount(node->text, &value, &half, &less)) {
        row_wants(&page->row, node, figures[i].word, "a number", "it as 1.2, or as <0.5");
        return;
    }
    const double times = figures[i].times * 100 / per;
    struct label_amount *out = amount_of(label, figures[i].nutrient);
    *out = (struct label_amount){true, less ? 0 : fmax(value * (1 - OFF) - half, 0) * times,
                                 (less ? value : value * (1 + OFF) + half) * times};
    if (value <= 0)
        out->high = fmax(out->high, ZERO_HIDES * times);
    if (figures[i].nutrient < NUTRIENTS)
        label->said[figures[i].nutrient] = (less ? value / 2 : value) * times;
}

static void
take_nutrition(struct page *page, const struct yaml_node *map, double per, struct label *label)
{
    if (!row_map(&page->row, map, "nutrition", "nutrition: {carbohydrate: 2.1, sugars: 0.9}"))
        return;
    for (size_t i = 0; i < map->count; i++)
        take_figure(page, yaml_key(map, i), yaml_value(map, i), per, label);
    const double *said = label->said;
    const struct label_amount *n = label->nutrients;
    if (n[SUGARS].given && n[CARBOHYDRATE].given && said[SUGARS] > said[CARBOHYDRATE])
        row_wrong(&page->row, yaml_get(map, "sugars"), "Look at the packet again.",
                  "sugars are more than the carbohydrate that they are part of");
    if (n[SATURATED_FAT].given && n[FAT].given && said[SATURATED_FAT] > said[FAT])
        row_wrong(&page->row, yaml_get(map, "saturated-fat"), "Look at the packet again.",
                  "saturated fat is more than the fat that it is part of");
    const double all =
        said[PROTEIN] + said[FAT] + said[CARBOHYDRATE] + (label->fibre_apart ? said[FIBRE] : 0);
    if (all > 100 * (1 + OFF / 4))
        row_wrong(&page->row, map, "Look at the packet again, and for how much it gives them.",
                  "protein, fat and carbohydrate together are more than the whole");
}

/* where an ingredient stands in the file */
static struct place
place_of(const struct yaml_node *node, struct slice list, struct slice words)
{
    const size_t from = (size_t)(words.at - list.at);
    return yaml_place_in(node, from, from + words.length);
}

/* percentages that no list can have */
static void
check_percents(struct page *page, const struct yaml_node *node, const struct label *label)
{
    for (size_t parent = 0; parent <= label->part_count; parent++) {
        double sum = 0;
        for (size_t i = 0; i < label->part_count; i++) {
            const struct label_part *p = &label->parts[i];
            struct yaml_node at = *node;
            at.place = p->place;
            if (p->parent != parent)
                continue;
            sum += p->least;
            if (p->least > label->made_from)
                row_wrong(&page->row, &at, "Look at the packet again.",
                          "%.*s is more than the whole", SLICE_ARGS(p->name));
            else if (sum > label->made_from && sum - p->least <= label->made_from)
                row_wrong(&page->row, &at,
                          "Look at the packet again; where more than 100 g go into 100 g of it, "
                          "as into a jam, add made-from: 120 g.",
                          "the percentages up to %.*s add up to more than the whole",
                          SLICE_ARGS(p->name));
        }
    }
}

static void
take_statements(struct page *page, const struct yaml_node *node, const struct label_list *list,
                struct label *label)
{
    for (size_t i = 0; i < list->statements.count; i++) {
        const struct label_statement *s = &list->statements.items[i];
        struct yaml_node at = *node;
        if (s->saying == LABEL_CONTAINS)
            label->contains = s->text;
        else if (s->saying == LABEL_MAY_CONTAIN)
            label->may_contain = s->text;
        else if (s->saying == LABEL_UNREAD) {
            at.place = place_of(node, label->list, s->text);
            row_wrong(&page->row, &at,
                      "Keep to the list of ingredients; what it contains and may contain have keys "
                      "of their own.",
                      "“%.*s” is no ingredient", SLICE_ARGS(s->text));
        }
    }
}

static void
take_ingredients(struct page *page, const struct yaml_node *node, struct label *label)
{
    struct larder *l = page->larder;
    struct label_list list;
    if (!row_text(&page->row, node, "ingredients"))
        return;
    label->list = slice_copy(l->arena, node->text);
    label->list_place = node->place;
    label_list_read(l->arena, label->list, l->words, &list);
    label->parts = arena_take_array(l->arena, LABEL_ITEMS_MOST, sizeof *label->parts);
    label->part_count = list.items.count;
    for (size_t i = 0; i < list.items.count; i++) {
        const struct label_item *item = &list.items.items[i];
        label->parts[i] = (struct label_part){.name = item->name,
                                              .all = item->all,
                                              .place = place_of(node, label->list, item->all),
                                              .parent = item->parent,
                                              .least = item->least,
                                              .most = item->most,
                                              .small = item->small,
                                              .any_order = item->any_order};
    }
    take_statements(page, node, &list, label);
    if (list.too_many)
        row_wrong(&page->row, node, "Write the list of one food.",
                  "the list has more than %d ingredients, or brackets in brackets past %d",
                  LABEL_ITEMS_MOST, LABEL_DEPTH_MOST);
    else
        check_percents(page, node, label);
}

static void
take_region(struct page *page, const struct yaml_node *node, struct label *label)
{
    static const char *const regions[] = {"uk", "eu", "au", "nz", "us", "ca", NULL};
    const int region = row_word(node->text, regions);
    if (region < 0) {
        row_word_unknown(&page->row, node, "region", "region of a packet", regions);
        return;
    }
    label->region = regions[region];
    label->fibre_apart = region < 4;
    label->small_anywhere = region < 2;
}

static void
take_tested(struct page *page, const struct yaml_node *map, struct label *label)
{
    static const char *const keys[] = {"serve", "phase", "source", NULL};
    const struct yaml_node *serve = yaml_get(map, "serve"), *source = yaml_get(map, "source"),
                           *phase = yaml_get(map, "phase");
    if (!row_map(&page->row, map, "tested", "tested: {serve: 75 g, source: \"who tested it\"}"))
        return;
    for (size_t i = 0; i < map->count; i++)
        if (row_word(yaml_key(map, i)->text, keys) < 0)
            row_key_unknown(&page->row, yaml_key(map, i), "tested", keys);
    if (serve == NULL || source == NULL || !row_text(&page->row, source, "source")) {
        row_wrong(&page->row, map, "Write tested: {serve: 75 g, source: \"who tested it\"}.",
                  "what was tested has no serve or no source");
        return;
    }
    take_grams(page, serve, "serve", &label->tested.grams);
    label->tested.source = larder_text(page->larder, source->text);
    label->tested.place = serve->place;
    if (phase != NULL)
        label->tested.phase = slice_copy(page->larder->arena, phase->text);
}

static void
take_key(struct page *page, const struct yaml_node *key, const struct yaml_node *node,
         struct label *label)
{
    static const char *const keys[] = {"region",    "per",    "nutrition",   "ingredients",
                                       "contains",  "claims", "may-contain", "tested",
                                       "made-from", "source", NULL};
    if (slice_is(key->text, "contains") && row_text(&page->row, node, "contains"))
        label->contains = slice_copy(page->larder->arena, node->text);
    else if (slice_is(key->text, "may-contain") && row_text(&page->row, node, "may-contain"))
        label->may_contain = slice_copy(page->larder->arena, node->text);
    else if (slice_is(key->text, "claims"))
        label->claims = food_page_diets(page, node, "claims");
    else if (slice_is(key->text, "tested"))
        take_tested(page, node, label);
    else if (slice_is(key->text, "source") && row_text(&page->row, node, "source"))
        label->source = larder_text(page->larder, node->text);
    else if (row_word(key->text, keys) < 0)
        row_key_unknown(&page->row, key, "a label", keys);
}

void
label_rows_take(struct page *page, const struct yaml_node *map, struct food_row *row)
{
    struct larder *l = page->larder;
    struct label *label = arena_take(l->arena, sizeof *label);
    const struct yaml_node *per = yaml_get(map, "per"), *region = yaml_get(map, "region"),
                           *from = yaml_get(map, "made-from"), *list = yaml_get(map, "ingredients"),
                           *nutrition = yaml_get(map, "nutrition");
    double grams = 100;
    *label = (struct label){.path = l->path,
                            .place = map->place,
                            .made_from = 100,
                            .fibre_apart = true,
                            .small_anywhere = true};
    if (!row_map(&page->row, map, "label", "label: {ingredients: \"...\", source: \"...\"}"))
        return;
    if (region != NULL)
        take_region(page, region, label);
    if (per != NULL)
        take_grams(page, per, "per", &grams);
    if (from != NULL)
        take_grams(page, from, "made-from", &label->made_from);
    if (nutrition != NULL)
        take_nutrition(page, nutrition, grams, label);
    for (size_t i = 0; i < map->count; i++)
        take_key(page, yaml_key(map, i), yaml_value(map, i), label);
    if (list != NULL)
        take_ingredients(page, list, label);
    if (label->source == NULL)
        row_wrong(&page->row, map, "Add source: which packet it is, and when it was read.",
                  "the label has no source");
    row->food.label = label;
}
