#include "tables/sources.h"

#include "read/yaml_value.h"
#include "tables/row.h"

const struct source_row *
sources_find(const struct sources *s, struct slice id)
{
    const size_t number = (size_t)(uintptr_t)map_get(&s->numbers, id);
    return number > 0 ? &s->items[number - 1] : NULL;
}

static bool
is_id_byte(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
}

void
sources_add_words(const struct sources *s, struct slice words, struct text *out)
{
    for (size_t from = 0, end; from < words.length; from = end) {
        bool sought = false; /* no id is without a figure or a hyphen, and few words are with one */
        for (end = from; end < words.length && is_id_byte(words.at[end]); end++)
            sought = sought || words.at[end] < 'a';
        sought = sought && words.at[from] >= 'a';
        const struct source_row *row =
            sought ? sources_find(s, slice_part(words, from, end)) : NULL;
        /* on to the next word */
        size_t id_end = end;
        while (end < words.length && (end == from || !is_id_byte(words.at[end])))
            end++;
        if (row != NULL)
            text_add_string(out, row->shown);
        text_add(out, slice_part(words, row != NULL ? id_end : from, end));
    }
}

static struct source_row *
source_of_id(struct arena *a, struct slice id, struct sources *out)
{
    const struct source_row *known = sources_find(out, id);
    if (known != NULL)
        return &out->items[known - out->items];
    struct source_row *row = LIST_GROW(a, out);
    row->id = slice_string(a, id);
    if (out->numbers.arena == NULL)
        out->numbers = map_new(a);
    map_put(&out->numbers, slice_of(row->id), (void *)(uintptr_t)out->count);
    return row;
}

void
sources_load(struct arena *a, const struct yaml_node *root, struct notices *notices,
             struct sources *out)
{
    static const char *const keys[] = {"title", "short", "locator", "kind", NULL};
    const struct yaml_node *rows = yaml_get(root, "sources");
    for (size_t i = 0; rows != NULL && rows->kind == YAML_MAP_NODE && i < rows->count; i++) {
        const struct yaml_node *key = yaml_key(rows, i), *map = yaml_value(rows, i);
        const struct yaml_node *title = yaml_get(map, "title"), *shown = yaml_get(map, "short");
        struct row row = {.arena = a, .texts = a, .notices = notices, .entry = key->text};
        row.until = "Until then pages show its id.";
        if (map->kind != YAML_MAP_NODE) {
            row_wants(&row, map, "the source", "a mapping",
                      "it as {title: \"...\", kind: article}");
            continue;
        }
        for (size_t k = 0; k < map->count; k++)
            if (row_word(yaml_key(map, k)->text, keys) < 0)
                row_key_unknown(&row, yaml_key(map, k), "a source", keys);
        if (title == NULL) {
            row_wrong(&row, key, "Add title: a short citation, as readers are to see it.",
                      "the source has no title");
        } else if (row_text(&row, title, "title") &&
                   (shown == NULL || row_text(&row, shown, "short"))) {
            struct source_row *one = source_of_id(a, key->text, out);
            one->title = slice_string(a, title->text);
            one->shown = shown != NULL ? slice_string(a, shown->text) : one->title;
        }
    }
}
