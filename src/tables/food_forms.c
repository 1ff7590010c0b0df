#include "tables/food_forms.h"

#include "read/yaml_value.h"

enum { GRAMS_MOST = 100000 }; /* of one piece of anything that is cooked */

/* gold has 19.3; nothing that is eaten comes near 3 */
static const struct figure_asked density = {"density", "g per mL", 3, true, {NULL, 0}, false};
static const struct figure_asked edible = {
    "edible share", "parts of 1: 0.64 for 64 %", 1, true, {NULL, 0}, false};
static const struct figure_asked weight = {"weight", "g", GRAMS_MOST, true, {NULL, 0}, false};

static void
take_pieces(struct page *page, const struct yaml_node *map, struct form *form)
{
    if (!row_map(&page->row, map, "pieces", "pieces: {each: {mid: (g), source: ...}}") ||
        map->kind != YAML_MAP_NODE)
        return;
    form->pieces = arena_take_array(page->larder->arena, map->count, sizeof *form->pieces);
    for (size_t i = 0; i < map->count; i++) {
        struct piece *p = &form->pieces[form->piece_count];
        struct figure_asked asked = weight;
        asked.of = yaml_key(map, i)->text;
        if (food_page_figure(page, yaml_value(map, i), &asked, &p->grams)) {
            p->word = larder_text(page->larder, yaml_key(map, i)->text);
            form->piece_count++;
        }
    }
}

/* the figure of a form, named by it in messages */
static void
take_figure(struct page *page, const struct yaml_node *node, const struct figure_asked *kind,
            struct slice form, struct figure *out)
{
    struct figure_asked asked = *kind;
    asked.of = form;
    food_page_figure(page, node, &asked, out);
}

static void
take_weighed(struct page *page, const struct yaml_node *node, struct form *form)
{
    static const char *const words[] = {"edible", "bought", NULL};
    int word = row_word(node->text, words);
    if (word < 0)
        row_word_unknown(&page->row, node, "weighed", "way to weigh", words);
    form->weighed_bought = word == 1;
}

static void
take_drained(struct page *page, const struct yaml_node *node, struct form *form)
{
    static const char *const words[] = {"always", "when-said", NULL};
    int word = row_word(node->text, words);
    if (word < 0)
        row_word_unknown(&page->row, node, "drained", "time to drain", words);
    form->drained_if_said = word == 1;
}

static void
take_form(struct page *page, struct slice name, const struct yaml_node *map, struct form *form)
{
    static const char *const keys[] = {"density", "edible",  "pieces",  "words",
                                       "weighed", "changed", "drained", NULL};
    form->name = larder_text(page->larder, name);
    form->words = arena_take(page->larder->arena, sizeof *form->words);
    if (map->kind != YAML_MAP_NODE) {
        row_map(&page->row, map, form->name,
                "a form as a mapping, {} where nothing is known of it");
        return;
    }
    for (size_t i = 0; i < map->count; i++) {
        const struct yaml_node *k = yaml_key(map, i), *v = yaml_value(map, i);
        switch (row_word(k->text, keys)) {
        case 0:
            take_figure(page, v, &density, name, &form->density);
            break;
        case 1:
            take_figure(page, v, &edible, name, &form->edible);
            break;
        case 2:
            take_pieces(page, v, form);
            break;
        case 3:
            form->words = food_page_texts(page, v, "words");
            break;
        case 4:
            take_weighed(page, v, form);
            break;
        case 5:
            form->entry.changed = food_page_changed(page, v);
            break;
        case 6:
            take_drained(page, v, form);
            break;
        default:
            row_key_unknown(&page->row, k, "a form", keys);
        }
    }
}

void
food_forms_take(struct page *page, const struct yaml_node *map, struct food *f)
{
    if (map->kind != YAML_MAP_NODE) {
        row_wants(&page->row, map, "forms", "a mapping of forms", "forms: {whole: {}}");
        return;
    }
    f->forms = arena_take_array(page->larder->arena, map->count + 1, sizeof *f->forms);
    for (size_t i = 0; i < map->count; i++)
        take_form(page, yaml_key(map, i)->text, yaml_value(map, i), &f->forms[f->form_count++]);
}
