#include "tables/food_rows.h"

#include <string.h>

#include "base/list.h"
#include "read/yaml_value.h"

/* the file being read */
struct page {
    struct larder *larder;
    struct arena *arena;
    struct notices *notices;
    struct food all;  /* its contents hold for foods that do not say otherwise */
    struct slice row; /* the food being read */
    bool wrong;       /* and something in it is */
    LIST_OF(struct food_name) names;
};

static void
row_wrong(struct page *page, const struct yaml_node *node, const char *why)
{
    notice_add(page->notices, RULE_TABLE_ROW_WRONG, node->place, slice_copy(page->arena, page->row),
               slice_of(why));
    page->wrong = true;
}

/* the index of a word in a list of known ones, or -1 */
static int
known_word(struct slice word, const char *(*name)(int), int count)
{
    for (int i = 0; i < count; i++)
        if (slice_is(word, name(i)))
            return i;
    return -1;
}

static const char *
class_at(int i)
{
    return class_word((enum food_class)i);
}

static const char *
allergen_at(int i)
{
    return allergen_word((enum allergen)i);
}

static const char *
diet_at(int i)
{
    return diet_word((enum diet)i);
}

static const char *
nutrient_at(int i)
{
    static const char *const words[NUTRIENTS] = {
        [ENERGY_KCAL] = "energy-kcal",
        [PROTEIN] = "protein",
        [FAT] = "fat",
        [SATURATED_FAT] = "saturated-fat",
        [CARBOHYDRATE] = "carbohydrate",
        [SUGARS] = "sugars",
        [FIBRE] = "fibre",
        [SODIUM_MG] = "sodium-mg",
    };
    return words[i];
}

static uint32_t
take_bits(struct page *page, const struct yaml_node *list, const char *(*name)(int), int count,
          const char *why)
{
    uint32_t bits = 0;
    if (list->kind != YAML_LIST_NODE) {
        row_wrong(page, list, "a list is expected");
        return 0;
    }
    for (size_t i = 0; i < list->count; i++) {
        int at = known_word(list->items[i]->text, name, count);
        if (at < 0)
            row_wrong(page, list->items[i], why);
        else
            bits |= (uint32_t)1 << at;
    }
    return bits;
}

/* the texts of a list, NULL-terminated */
static const char **
take_texts(struct page *page, const struct yaml_node *list)
{
    size_t count = list->kind == YAML_LIST_NODE ? list->count : 0;
    const char **texts = arena_take_array(page->arena, count + 1, sizeof *texts);
    if (list->kind != YAML_LIST_NODE)
        row_wrong(page, list, "a list is expected");
    for (size_t i = 0; i < count; i++)
        texts[i] = larder_text(page->larder, list->items[i]->text);
    return texts;
}

static bool
take_figure(struct page *page, const struct yaml_node *node, struct figure *out)
{
    if (!figure_read(page->larder->scratch, node, page->notices, out)) {
        page->wrong = true;
        return false;
    }
    out->source = larder_text(page->larder, slice_of(out->source));
    return true;
}

static void
take_pieces(struct page *page, const struct yaml_node *map, struct form *form)
{
    if (map->kind != YAML_MAP_NODE) {
        row_wrong(page, map, "a mapping of pieces to weights is expected");
        return;
    }
    form->pieces = arena_take_array(page->arena, map->count, sizeof *form->pieces);
    for (size_t i = 0; i < map->count; i++) {
        struct piece *p = &form->pieces[form->piece_count];
        if (take_figure(page, yaml_value(map, i), &p->grams)) {
            p->word = larder_text(page->larder, yaml_key(map, i)->text);
            form->piece_count++;
        }
    }
}

static void
take_form(struct page *page, const struct yaml_node *key, const struct yaml_node *map,
          struct form *form)
{
    struct slice name = key->text;
    form->name = larder_text(page->larder, name);
    form->words = arena_take(page->arena, sizeof *form->words);
    if (map->kind != YAML_MAP_NODE) {
        row_wrong(page, map, "a form is a mapping");
        return;
    }
    for (size_t i = 0; i < map->count; i++) {
        const struct yaml_node *k = yaml_key(map, i), *v = yaml_value(map, i);
        if (slice_is(k->text, "density"))
            take_figure(page, v, &form->density);
        else if (slice_is(k->text, "edible"))
            take_figure(page, v, &form->edible);
        else if (slice_is(k->text, "pieces"))
            take_pieces(page, v, form);
        else if (slice_is(k->text, "words"))
            form->words = take_texts(page, v);
        else if (slice_is(k->text, "weighed"))
            form->weighed_bought = slice_is(v->text, "bought");
        else if (slice_is(k->text, "changed"))
            form->entry.changed = larder_text(page->larder, v->text);
        else
            row_wrong(page, k, "is no key of a form");
    }
    if (figure_known(&form->edible) && (form->edible.span.low <= 0 || form->edible.span.high > 1))
        row_wrong(page, map, "an edible share is over 0 and at most 1");
    if (figure_known(&form->density) && form->density.span.low <= 0)
        row_wrong(page, map, "a density is over 0");
}

static void
take_forms(struct page *page, const struct yaml_node *map, struct food *f)
{
    if (map->kind != YAML_MAP_NODE) {
        row_wrong(page, map, "a mapping of forms is expected");
        return;
    }
    f->forms = arena_take_array(page->arena, map->count + 1, sizeof *f->forms);
    for (size_t i = 0; i < map->count; i++)
        take_form(page, yaml_key(map, i), yaml_value(map, i), &f->forms[f->form_count++]);
}

/* contents of a mapping into those groups that have none yet */
static void
take_contents(struct page *page, const struct yaml_node *map, struct food *f)
{
    const struct yaml_node *all = NULL;
    for (size_t i = 0; map != NULL && map->kind == YAML_MAP_NODE && i < map->count; i++) {
        const struct yaml_node *k = yaml_key(map, i), *v = yaml_value(map, i);
        enum group g;
        if (slice_is(k->text, "all")) {
            all = v;
        } else if (!group_read(k->text, &g)) {
            row_wrong(page, k, "is no group of carbohydrates");
        } else if (!figure_known(&f->contents[g])) {
            take_figure(page, v, &f->contents[g]);
            const struct yaml_node *changed = yaml_get(v, "changed");
            if (changed != NULL)
                f->contents_entry[g].changed = larder_text(page->larder, changed->text);
        }
    }
    struct figure figure = {.basis = BASIS_NONE};
    if (all != NULL)
        take_figure(page, all, &figure);
    for (int g = 0; g < GROUPS && figure_known(&figure); g++)
        if (!figure_known(&f->contents[g]))
            f->contents[g] = figure;
}

static void
take_nutrients(struct page *page, const struct yaml_node *map, struct food *f)
{
    struct figure proto = {.basis = BASIS_NONE};
    if (map->kind != YAML_MAP_NODE) {
        row_wrong(page, map, "a mapping of nutrients is expected");
        return;
    }
    for (size_t i = 0; i < map->count; i++) {
        struct slice key = yaml_key(map, i)->text, text = yaml_value(map, i)->text;
        if (slice_is(key, "source"))
            proto.source = larder_text(page->larder, text);
        for (int b = BASIS_MEASURED; slice_is(key, "basis") && b <= BASIS_MEMORY; b++)
            if (slice_is(text, basis_word((enum basis)b)))
                proto.basis = (enum basis)b;
    }
    if (proto.source == NULL || proto.basis == BASIS_NONE) {
        row_wrong(page, map, "nutrients have no source or no basis");
        return;
    }
    for (size_t i = 0; i < map->count; i++) {
        const struct yaml_node *k = yaml_key(map, i);
        double amount;
        if (slice_is(k->text, "source") || slice_is(k->text, "basis") ||
            slice_is(k->text, "changed"))
            continue;
        int n = known_word(k->text, nutrient_at, NUTRIENTS);
        if (n < 0 || !yaml_number(yaml_value(map, i), &amount) || amount < 0) {
            row_wrong(page, k, "is no nutrient, or has no amount");
            continue;
        }
        f->nutrients[n] = proto;
        f->nutrients[n].span = span_exact(amount);
    }
}

static void
take_serve(struct page *page, const struct yaml_node *map, struct food *f)
{
    const struct yaml_node *group = yaml_get(map, "group"), *changed = yaml_get(map, "changed");
    if (group == NULL || !group_read(group->text, &f->serve_group))
        row_wrong(page, map, "a tested serve names the group that limits it");
    take_figure(page, map, &f->tested_serve);
    if (changed != NULL)
        f->serve_entry.changed = larder_text(page->larder, changed->text);
}

static void
add_name(struct page *page, struct food_row *row, const char *text, enum name_scope scope,
         const char *region, enum measured_by by)
{
    *LIST_GROW(page->larder->scratch, &page->names) =
        (struct food_name){row, text, scope, region, by, NULL};
}

/* the names gathered, in just the room they need */
static void
keep_names(struct page *page, struct food_row *row)
{
    row->name_count = page->names.count;
    row->names = arena_take_array(page->arena, row->name_count, sizeof *row->names);
    memcpy(row->names, page->names.items, row->name_count * sizeof *row->names);
    page->names.count = 0;
}

static void
take_names(struct page *page, const struct yaml_node *map, struct food_row *row)
{
    static const struct {
        const char *key;
        enum measured_by by;
    } measured[] = {{"spoon", BY_SPOON},
                    {"cup", BY_CUP},
                    {"weight", BY_WEIGHT},
                    {"piece", BY_PIECE},
                    {"bunch", BY_BUNCH}};
    if (map->kind != YAML_MAP_NODE) {
        row_wrong(page, map, "a mapping of names is expected");
        return;
    }
    for (size_t i = 0; i < map->count; i++) {
        const struct yaml_node *k = yaml_key(map, i);
        const char **texts = take_texts(page, yaml_value(map, i));
        enum name_scope scope = slice_is(k->text, "any") ? NAME_ANY : NAME_REGION;
        enum measured_by by = BY_NOTHING;
        for (size_t m = 0; m < sizeof measured / sizeof *measured; m++)
            if (slice_is(k->text, measured[m].key)) {
                scope = NAME_MEASURED;
                by = measured[m].by;
            }
        if (scope == NAME_REGION && measures_region(page->larder->measures, k->text) < 0)
            row_wrong(page, k, "is no region and no way to measure");
        const char *region = scope == NAME_REGION ? larder_text(page->larder, k->text) : NULL;
        for (size_t t = 0; texts[t] != NULL; t++)
            add_name(page, row, texts[t], scope, region, by);
    }
}

static void
take_shown(struct page *page, const struct yaml_node *map, struct food_row *row)
{
    const struct measures *m = page->larder->measures;
    for (size_t i = 0; map->kind == YAML_MAP_NODE && i < map->count; i++) {
        const char *region = larder_text(page->larder, yaml_key(map, i)->text);
        const char *name = larder_text(page->larder, yaml_value(map, i)->text);
        if (measures_region(m, slice_of(region)) < 0) {
            row_wrong(page, yaml_key(map, i), "is no region of the measures table");
            continue;
        }
        for (size_t r = 0; r < m->region_count; r++)
            if (strcmp(m->regions[r].speech, region) == 0)
                row->food.shown[r] = name;
        add_name(page, row, name, NAME_REGION, region, BY_NOTHING);
    }
}

static bool
take_plain(struct page *page, struct slice key, const struct yaml_node *v, struct food *f)
{
    if (slice_is(key, "class")) {
        int c = known_word(v->text, class_at, CLASSES);
        if (c < 0)
            row_wrong(page, v, "is no class of foods");
        else
            f->food_class = (enum food_class)c;
    } else if (slice_is(key, "fresh")) {
        if (!yaml_truth(v, &f->fresh))
            row_wrong(page, v, "fresh is yes or no");
    } else if (slice_is(key, "allergens")) {
        f->allergens = take_bits(page, v, allergen_at, ALLERGENS, "is no allergen of the list");
    } else if (slice_is(key, "may-carry")) {
        f->may_carry = take_bits(page, v, allergen_at, ALLERGENS, "is no allergen of the list");
    } else if (slice_is(key, "breaks")) {
        f->breaks = take_bits(page, v, diet_at, DIETS, "is no diet of the list");
    } else if (slice_is(key, "labelled")) {
        f->labelled = take_bits(page, v, diet_at, DIETS, "is no diet of the list");
    } else if (slice_is(key, "cautions-tags")) {
        f->tags = take_texts(page, v);
    } else if (slice_is(key, "ph")) {
        f->ph = larder_text(page->larder, v->text);
    } else if (slice_is(key, "changed")) {
        f->identity.changed = larder_text(page->larder, v->text);
    } else {
        return false;
    }
    return true;
}

static void
take_key(struct page *page, const struct yaml_node *k, const struct yaml_node *v,
         struct food_row *row)
{
    struct food *f = &row->food;
    if (slice_is(k->text, "name"))
        add_name(page, row, f->name = larder_text(page->larder, v->text), NAME_OWN, NULL,
                 BY_NOTHING);
    else if (slice_is(k->text, "names"))
        take_names(page, v, row);
    else if (slice_is(k->text, "shown"))
        take_shown(page, v, row);
    else if (slice_is(k->text, "forms"))
        take_forms(page, v, f);
    else if (slice_is(k->text, "per-100-g"))
        take_contents(page, v, f);
    else if (slice_is(k->text, "nutrients"))
        take_nutrients(page, v, f);
    else if (slice_is(k->text, "tested-serve"))
        take_serve(page, v, f);
    else if (!take_plain(page, k->text, v, f))
        row_wrong(page, k, "is no key of a food");
}

static uint64_t
texts_digest(const char *const *texts, uint64_t d)
{
    for (; texts != NULL && *texts != NULL; texts++)
        d = slice_digest(slice_of(*texts), d);
    return d;
}

static uint64_t
identity_digest(const struct food *f)
{
    uint32_t bits[] = {f->allergens, f->may_carry, f->breaks, f->labelled, (uint32_t)f->food_class,
                       f->fresh};
    uint64_t d = slice_digest((struct slice){(const char *)bits, sizeof bits}, 1);
    d = slice_digest(slice_of(f->name), d);
    d = slice_digest(slice_of(f->ph), d);
    d = texts_digest(f->tags, d);
    for (int r = 0; r < REGIONS_MOST; r++)
        d = slice_digest(slice_of(f->shown[r]), d);
    return d;
}

/* which form is the first, the default, is a value of each form, too */
static uint64_t
form_digest(const struct form *form, bool first)
{
    uint64_t d = figure_digest(&form->density, (uint64_t)first << 1 | form->weighed_bought);
    d = figure_digest(&form->edible, texts_digest(form->words, d));
    for (size_t i = 0; i < form->piece_count; i++)
        d = figure_digest(&form->pieces[i].grams, slice_digest(slice_of(form->pieces[i].word), d));
    return d;
}

static void
lay_entries(struct page *page, struct food *f)
{
    struct arena *a = page->arena;
    f->identity.key = text_format(a, "food:%s", f->id);
    f->identity.digest = identity_digest(f);
    for (int g = 0; g < GROUPS; g++) {
        struct entry *e = &f->contents_entry[g];
        e->key = text_format(a, "food:%s/%s", f->id, group_word((enum group)g));
        e->digest = figure_known(&f->contents[g]) ? figure_digest(&f->contents[g], 0) : 0;
    }
    f->nutrients_entry.key = text_format(a, "food:%s/nutrients", f->id);
    for (int n = 0; n < NUTRIENTS; n++)
        if (figure_known(&f->nutrients[n]))
            f->nutrients_entry.digest =
                figure_digest(&f->nutrients[n], f->nutrients_entry.digest + (uint64_t)n + 1);
    f->serve_entry.key = text_format(a, "food:%s/serve", f->id);
    if (figure_known(&f->tested_serve))
        f->serve_entry.digest = figure_digest(&f->tested_serve, f->serve_group);
    for (size_t i = 0; i < f->form_count; i++) {
        struct form *form = &f->forms[i];
        form->entry.key = text_format(a, "food:%s/%s", f->id, form->name);
        form->entry.digest = form_digest(form, i == 0);
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

static void
take_food(struct page *page, const struct yaml_node *key, const struct yaml_node *map)
{
    struct larder *l = page->larder;
    struct food_row *row = arena_take(page->arena, sizeof *row);
    struct food *f = &row->food;
    page->row = key->text;
    page->wrong = false;
    page->names.count = 0;
    f->id = larder_text(page->larder, key->text);
    f->food_class = CLASSES;
    if (map->kind != YAML_MAP_NODE)
        row_wrong(page, map, "a food is a mapping");
    for (size_t i = 0; map->kind == YAML_MAP_NODE && i < map->count; i++)
        take_key(page, yaml_key(map, i), yaml_value(map, i), row);
    for (int g = 0; g < GROUPS; g++)
        if (!figure_known(&f->contents[g]))
            f->contents[g] = page->all.contents[g];
    if (!page->wrong && (f->name == NULL || f->food_class == CLASSES || f->form_count == 0))
        row_wrong(page, key, "a food has a name, a class and a form");
    if (page->wrong)
        return;
    if (f->tags == NULL)
        f->tags = arena_take(page->arena, sizeof *f->tags);
    if (!is_name_as_id(f))
        add_name(page, row, f->id, NAME_ID, NULL, BY_NOTHING);
    keep_names(page, row);
    lay_entries(page, f);
    struct food_row *before = map_get(&l->by_id, key->text);
    if (before != NULL) {
        for (size_t i = 0; i < l->count; i++)
            if (l->items[i] == before)
                l->items[i] = row;
    } else {
        *LIST_GROW(page->arena, l) = row;
    }
    map_put(&l->by_id, slice_of(f->id), row);
}

void
food_rows_take(struct larder *l, const struct yaml_node *root, struct notices *notices)
{
    struct page page = {.larder = l, .arena = l->arena, .notices = notices};
    const struct yaml_node *foods = yaml_get(root, "foods");
    page.row = SLICE("all-of-these");
    take_contents(&page, yaml_get(yaml_get(root, "all-of-these"), "per-100-g"), &page.all);
    for (size_t i = 0; root->kind == YAML_MAP_NODE && i < root->count; i++)
        if (!slice_is(yaml_key(root, i)->text, "foods") &&
            !slice_is(yaml_key(root, i)->text, "all-of-these")) {
            page.row = yaml_key(root, i)->text;
            row_wrong(&page, yaml_key(root, i), "is no part of a file of foods");
        }
    for (size_t i = 0; foods != NULL && foods->kind == YAML_MAP_NODE && i < foods->count; i++)
        take_food(&page, yaml_key(foods, i), yaml_value(foods, i));
}
