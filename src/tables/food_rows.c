#include "tables/food_rows.h"

#include <string.h>

#include "read/yaml_value.h"
#include "tables/food_contents.h"
#include "tables/food_entries.h"
#include "tables/food_forms.h"
#include "tables/food_page.h"
#include "tables/food_recipe.h"
#include "tables/label_rows.h"

static const char *
class_at(int i)
{
    return groups_class_word((enum food_class)i);
}

static const char *
region_at(const struct page *page, size_t i)
{
    return page->larder->measures->regions[i].id;
}

bool
food_page_figure(struct page *page, const struct yaml_node *node, const struct figure_asked *asked,
                 struct figure *out)
{
    if (!figure_read(&page->row, node, asked, out))
        return false;
    out->source = larder_text(page->larder, slice_of(out->source));
    return true;
}

const char *
food_page_changed(struct page *page, const struct yaml_node *node)
{
    if (node == NULL || !row_date(&page->row, node))
        return NULL;
    return larder_text(page->larder, node->text);
}

const char **
food_page_texts(struct page *page, const struct yaml_node *list, const char *part)
{
    bool alone = list->kind == YAML_SCALAR_NODE && list->text.length > 0;
    size_t count = list->kind == YAML_LIST_NODE ? list->count : alone;
    const char **texts = arena_take_array(page->larder->arena, count + 1, sizeof *texts);
    if (list->kind != YAML_LIST_NODE && !alone)
        row_wants(&page->row, list, part, "a list of words",
                  "a list: [one, another], or [] for none");
    for (size_t i = 0; i < count; i++) {
        const struct yaml_node *one = alone ? list : list->items[i];
        texts[i] = larder_text(page->larder, one->text);
        row_text(&page->row, one, part);
    }
    return texts;
}

static uint32_t
take_bits(struct page *page, const struct yaml_node *list, const char *part,
          const char *(*name)(int), int count, const char *kind)
{
    uint32_t bits = 0;
    if (list->kind != YAML_LIST_NODE) {
        row_wants(&page->row, list, part, "a list", "a list: [one, another], or [] for none");
        return 0;
    }
    const char **known = NULL;
    for (size_t i = 0; i < list->count; i++) {
        const struct yaml_node *one = list->items[i];
        int at = 0;
        while (at < count && !slice_is(one->text, name(at)))
            at++;
        if (at < count) {
            bits |= (uint32_t)1 << at;
            continue;
        }
        if (known == NULL)
            known = row_words(page->row.arena, name, count);
        row_word_unknown(&page->row, one, part, kind, known);
    }
    return bits;
}

uint32_t
food_page_diets(struct page *page, const struct yaml_node *list, const char *part)
{
    return take_bits(page, list, part, groups_diet_at, DIETS, "diet");
}

static void
add_name(struct page *page, struct food_row *row, const char *text, enum name_scope scope,
         const char *region, enum measured_by by)
{
    *LIST_GROW(page->larder->scratch, &page->names) =
        (struct food_name){row, text, {"", 0}, {"", 0}, scope, region, by, NULL};
}

/* the names gathered, in just the room they need */
static void
keep_names(struct page *page, struct food_row *row)
{
    row->name_count = page->names.count;
    row->names = arena_take_array(page->larder->arena, row->name_count, sizeof *row->names);
    memcpy(row->names, page->names.items, row->name_count * sizeof *row->names);
    page->names.count = 0;
}

/* the words that may stand where a region's does */
static const char **
region_words(const struct page *page, const char *const *more)
{
    size_t count = 0;
    const char **words = arena_take_array(page->row.arena, REGIONS_MOST + 8, sizeof *words);
    for (size_t i = 0; more != NULL && more[i] != NULL; i++)
        words[count++] = more[i];
    for (size_t i = 0; i < page->larder->measures->region_count; i++)
        words[count++] = region_at(page, i);
    return words;
}

static void
take_names(struct page *page, const struct yaml_node *map, struct food_row *row)
{
    static const char *const scopes[] = {"any", "spoon", "cup", "weight", "piece", "bunch", NULL};
    static const enum measured_by measured[] = {BY_NOTHING, BY_SPOON, BY_CUP,
                                                BY_WEIGHT,  BY_PIECE, BY_BUNCH};
    if (map->kind != YAML_MAP_NODE) {
        row_wants(&page->row, map, "names", "a mapping", "names: {any: [one name, another]}");
        return;
    }
    for (size_t i = 0; i < map->count; i++) {
        const struct yaml_node *k = yaml_key(map, i);
        const char **texts = food_page_texts(page, yaml_value(map, i), "names");
        int word = row_word(k->text, scopes);
        enum name_scope scope = word == 0 ? NAME_ANY : word > 0 ? NAME_MEASURED : NAME_REGION;
        if (scope == NAME_REGION && measures_region(page->larder->measures, k->text) < 0)
            row_word_unknown(&page->row, k, "names", "region and no way to measure",
                             region_words(page, scopes));
        const char *region = scope == NAME_REGION ? larder_text(page->larder, k->text) : NULL;
        for (size_t t = 0; texts[t] != NULL; t++)
            add_name(page, row, texts[t], scope, region, word > 0 ? measured[word] : BY_NOTHING);
    }
}

static void
take_shown(struct page *page, const struct yaml_node *map, struct food_row *row)
{
    const struct measures *m = page->larder->measures;
    if (!row_map(&page->row, map, "shown", "shown: {us: zucchini}"))
        return;
    for (size_t i = 0; i < map->count; i++) {
        const struct yaml_node *k = yaml_key(map, i), *v = yaml_value(map, i);
        const char *region = larder_text(page->larder, k->text);
        const char *name = larder_text(page->larder, v->text);
        if (measures_region(m, k->text) < 0) {
            row_word_unknown(&page->row, k, "shown", "region", region_words(page, NULL));
            continue;
        }
        if (!row_text(&page->row, v, "shown"))
            continue;
        for (size_t r = 0; r < m->region_count; r++)
            if (strcmp(m->regions[r].speech, region) == 0)
                row->food.shown[r] = name;
        add_name(page, row, name, NAME_REGION, region, BY_NOTHING);
    }
}

static void
take_class(struct page *page, const struct yaml_node *v, struct food *f)
{
    int c = 0;
    while (c < CLASSES && !slice_is(v->text, class_at(c)))
        c++;
    if (c == CLASSES)
        row_word_unknown(&page->row, v, "class", "class of foods",
                         row_words(page->row.arena, class_at, CLASSES));
    else
        f->food_class = (enum food_class)c;
}

static void
take_ph(struct page *page, const struct yaml_node *v, struct food *f)
{
    static const char *const words[] = {"acid", "low-acid", NULL};
    int word = row_word(v->text, words);
    if (word < 0)
        row_word_unknown(&page->row, v, "ph", "word for it", words);
    else
        f->ph = words[word];
}

/* what a food is of the kind of: the entry it counts with, its botanical family and part */
static bool
take_kin(struct page *page, struct slice key, const struct yaml_node *v, struct food_row *row)
{
    struct food *f = &row->food;
    static const char *const keys[] = {"counts-with", "family", "part", NULL};
    const char **const texts[] = {&f->counts_with, &f->family, &f->part};
    int at = row_word(key, keys);
    if (at < 0)
        return false;
    if (row_text(&page->row, v, keys[at]))
        *texts[at] = larder_text(page->larder, v->text);
    if (at == 0)
        row->counts_place = v->place;
    return true;
}

static bool
take_plain(struct page *page, struct slice key, const struct yaml_node *v, struct food *f)
{
    bool kin = true;
    if (slice_is(key, "class"))
        take_class(page, v, f);
    else if (slice_is(key, "fresh"))
        row_truth(&page->row, v, "fresh", &f->fresh);
    else if (slice_is(key, "seasoning"))
        row_truth(&page->row, v, "seasoning", &f->seasoning);
    else if (slice_is(key, "kin"))
        f->kinless = row_truth(&page->row, v, "kin", &kin) && !kin;
    else if (slice_is(key, "allergens"))
        f->allergens = take_bits(page, v, "allergens", groups_allergen_at, ALLERGENS, "allergen");
    else if (slice_is(key, "may-carry"))
        f->may_carry = take_bits(page, v, "may-carry", groups_allergen_at, ALLERGENS, "allergen");
    else if (slice_is(key, "traces"))
        f->traces = take_bits(page, v, "traces", groups_allergen_at, ALLERGENS, "allergen");
    else if (slice_is(key, "breaks"))
        f->breaks = food_page_diets(page, v, "breaks");
    else if (slice_is(key, "labelled"))
        f->labelled = food_page_diets(page, v, "labelled");
    else if (slice_is(key, "grounds"))
        food_grounds_take(page, v, f);
    else if (slice_is(key, "usual-recipe"))
        food_recipe_take(page, v, f);
    else if (slice_is(key, "cautions-tags"))
        f->tags = food_page_texts(page, v, "cautions-tags");
    else if (slice_is(key, "ph"))
        take_ph(page, v, f);
    else if (slice_is(key, "changed"))
        f->identity.changed = food_page_changed(page, v);
    else
        return false;
    return true;
}

static void
take_key(struct page *page, const struct yaml_node *k, const struct yaml_node *v,
         struct food_row *row)
{
    static const char *const keys[] = {"name",         "names",     "shown",     "class",
                                       "fresh",        "allergens", "may-carry", "traces",
                                       "breaks",       "labelled",  "grounds",   "forms",
                                       "per-100-g",    "bounds",    "nutrients", "counts-with",
                                       "family",       "part",      "seasoning", "cautions-tags",
                                       "ph",           "changed",   "kin",       "label",
                                       "usual-recipe", NULL};
    struct food *f = &row->food;
    if (slice_is(k->text, "name")) {
        if (row_text(&page->row, v, "name"))
            add_name(page, row, f->name = larder_text(page->larder, v->text), NAME_OWN, NULL,
                     BY_NOTHING);
    } else if (slice_is(k->text, "names")) {
        take_names(page, v, row);
    } else if (slice_is(k->text, "shown")) {
        take_shown(page, v, row);
    } else if (slice_is(k->text, "forms")) {
        food_forms_take(page, v, f);
    } else if (slice_is(k->text, "per-100-g")) {
        food_contents_take(page, v, f);
    } else if (slice_is(k->text, "bounds")) {
        food_bounds_take(page, v, f);
    } else if (slice_is(k->text, "nutrients")) {
        food_nutrients_take(page, v, f);
    } else if (slice_is(k->text, "label")) {
        label_rows_take(page, v, row);
    } else if (!take_plain(page, k->text, v, f) && !take_kin(page, k->text, v, row)) {
        row_key_unknown(&page->row, k, "a food", keys);
    }
}

/* "brown-sugar" is "brown sugar" already */
static bool
is_name_as_id(const struct food *f)
{
    const char *a = f->id, *b = f->name;
    for (; *a != '\0' && (*a == *b || (*a == '-' && *b == ' ')); a++, b++)
        ;
    return *a == '\0' && *b == '\0';
}

/* what a packet need not say: the class with the strictest limits, and one form */
static void
fill_from_packet(struct page *page, struct food *f)
{
    static const char *const no_words[] = {NULL};
    if (f->food_class == CLASSES)
        f->food_class = CLASS_OTHER;
    f->kinless = true;
    if (f->form_count > 0)
        return;
    f->form_count = 1;
    f->forms = arena_take(page->larder->arena, sizeof *f->forms);
    f->forms[0] = (struct form){.name = larder_text(page->larder, SLICE("whole")),
                                .words = arena_take(page->larder->arena, sizeof no_words)};
}

/* what every food has */
static void
check_whole(struct page *page, const struct yaml_node *key, const struct food *f)
{
    if (f->name == NULL)
        row_wrong(&page->row, key, "Add name: what a cook calls it.", "the food has no name");
    if (f->food_class == CLASSES)
        row_wrong(&page->row, key,
                  "Add class: grain, legume, nut, seed, vegetable, fruit, dairy or other.",
                  "the food has no class");
    if (f->form_count == 0)
        row_wrong(&page->row, key, "Add forms: {whole: {}}, with what is known of its weight.",
                  "the food has no form");
}

static void
keep_food(struct larder *l, const struct yaml_node *key, struct food_row *row)
{
    struct food_row *before = map_get(&l->by_id, key->text);
    if (before != NULL) {
        for (size_t i = 0; i < l->count; i++)
            if (l->items[i] == before)
                l->items[i] = row;
    } else {
        *LIST_GROW(l->arena, l) = row;
    }
    map_put(&l->by_id, slice_of(row->food.id), row);
}

static void
take_food(struct page *page, const struct yaml_node *key, const struct yaml_node *map)
{
    struct larder *l = page->larder;
    struct food_row *row = arena_take(l->arena, sizeof *row);
    struct food *f = &row->food;
    page->row.entry = key->text;
    page->row.until = map_get(&l->by_id, key->text) != NULL
                          ? "Until then the food of the tables before this one holds."
                          : "Until then the food is left out.";
    page->row.wrong = false;
    page->names.count = 0;
    f->id = larder_text(l, key->text);
    row->path = larder_text(l, slice_of(l->path));
    f->food_class = CLASSES;
    if (map->kind != YAML_MAP_NODE)
        row_wants(&page->row, map, "the food", "a mapping",
                  "it as a mapping with name, class and forms");
    for (size_t i = 0; map->kind == YAML_MAP_NODE && i < map->count; i++)
        take_key(page, yaml_key(map, i), yaml_value(map, i), row);
    for (int g = 0; f->label == NULL && g < GROUPS; g++)
        if (!figure_known(&f->contents[g]))
            f->contents[g] = page->all.contents[g];
    if (f->label != NULL)
        fill_from_packet(page, f);
    if (!page->row.wrong)
        check_whole(page, key, f);
    if (page->row.wrong)
        return;
    if (f->tags == NULL)
        f->tags = arena_take(l->arena, sizeof *f->tags);
    if (!is_name_as_id(f))
        add_name(page, row, f->id, NAME_ID, NULL, BY_NOTHING);
    keep_names(page, row);
    food_entries_build(l->arena, f);
    keep_food(l, key, row);
    if (f->label != NULL)
        *LIST_GROW(l->arena, &l->labelled) = row;
}

void
food_rows_take(struct larder *l, const struct yaml_node *root, struct notices *notices)
{
    static const char *const keys[] = {"per-100-g", NULL};
    struct page page = {.larder = l,
                        .row = {.arena = l->arena, .texts = l->scratch, .notices = notices}};
    const struct yaml_node *foods = yaml_get(root, "foods"), *all = yaml_get(root, "all-of-these");
    page.row.entry = SLICE("all-of-these");
    for (size_t i = 0; all != NULL && all->kind == YAML_MAP_NODE && i < all->count; i++)
        if (row_word(yaml_key(all, i)->text, keys) < 0)
            row_key_unknown(&page.row, yaml_key(all, i), "all-of-these", keys);
    food_contents_take(&page, yaml_get(all, "per-100-g"), &page.all);
    for (size_t i = 0; foods != NULL && foods->kind == YAML_MAP_NODE && i < foods->count; i++)
        take_food(&page, yaml_key(foods, i), yaml_value(foods, i));
}
