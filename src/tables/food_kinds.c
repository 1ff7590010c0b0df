#include "tables/food_kinds.h"

#include <string.h>

#include "base/list.h"
#include "read/words.h"
#include "read/yaml_value.h"
#include "tables/row.h"

static const char **
take_list(struct row *row, const struct yaml_node *list, const char *part)
{
    size_t count = 0;
    if (list->kind != YAML_LIST_NODE || list->count == 0) {
        row_wants(row, list, part, "a list of words", "it as [cheese, cheeses]");
        return NULL;
    }
    const char **out = arena_take_array(row->texts, list->count + 1, sizeof *out);
    for (size_t i = 0; i < list->count; i++)
        if (row_text(row, list->items[i], part))
            out[count++] = slice_string(row->texts, list->items[i]->text);
    return out;
}

static void
take_class(struct row *row, const struct yaml_node *v, struct food_kind *k)
{
    const char *known[CLASSES + 1] = {NULL};
    for (int c = 0; c < CLASSES; c++)
        known[c] = groups_class_word((enum food_class)c);
    k->food_class = row_word(v->text, known);
    if (k->food_class < 0)
        row_word_unknown(row, v, "class", "class of foods", known);
}

static void
take_kind(struct row *row, const struct yaml_node *map, struct food_kind *k)
{
    static const char *const keys[] = {"words", "class", "tags", "line", NULL};
    if (!row_map(row, map, "the kind", "its words as a mapping"))
        return;
    for (size_t i = 0; i < map->count; i++) {
        const struct yaml_node *key = yaml_key(map, i), *v = yaml_value(map, i);
        if (slice_is(key->text, "words"))
            k->words = take_list(row, v, "words");
        else if (slice_is(key->text, "class"))
            take_class(row, v, k);
        else if (slice_is(key->text, "tags"))
            k->tags = take_list(row, v, "tags");
        else if (slice_is(key->text, "line"))
            k->line = take_list(row, v, "line");
        else
            row_key_unknown(row, key, "a kind of food", keys);
    }
    if (!row->wrong && k->words == NULL)
        row_wrong(row, map, "Add words:.", "the kind has no words");
}

static uint64_t
list_digest(const char *const *list, uint64_t d)
{
    for (; list != NULL && *list != NULL; list++)
        d = slice_digest(slice_of(*list), d);
    return slice_digest(SLICE("end"), d);
}

void
food_kinds_load(struct arena *a, const struct yaml_node *map, struct notices *notices,
                struct food_kinds *out)
{
    struct row row = {.arena = a, .texts = a, .notices = notices};
    row.until = "Until then the kind is left out.";
    for (size_t i = 0; map->kind == YAML_MAP_NODE && i < map->count; i++) {
        struct food_kind k = {.food_class = -1};
        row.entry = yaml_key(map, i)->text;
        row.wrong = false;
        take_kind(&row, yaml_value(map, i), &k);
        if (row.wrong)
            continue;
        k.id = slice_string(a, row.entry);
        size_t at = 0;
        while (at < out->count && strcmp(out->items[at].id, k.id) != 0)
            at++;
        if (at < out->count)
            out->items[at] = k;
        else
            *LIST_GROW(a, out) = k;
    }
    out->digest = 0;
    for (size_t i = 0; i < out->count; i++) {
        const struct food_kind *k = &out->items[i];
        uint64_t d = list_digest(k->words, out->digest ^ (uint64_t)(k->food_class + 1));
        out->digest = list_digest(k->line, list_digest(k->tags, d));
    }
}

bool
food_kind_has(const struct food_kind *k, const struct food *f, const struct words *line)
{
    if (f != NULL && (int)f->food_class == k->food_class)
        return true;
    for (size_t i = 0; f != NULL && k->tags != NULL && k->tags[i] != NULL; i++)
        for (size_t n = 0; f->tags != NULL && f->tags[n] != NULL; n++)
            if (strcmp(f->tags[n], k->tags[i]) == 0)
                return true;
    return k->line != NULL && words_have(line, k->line);
}
