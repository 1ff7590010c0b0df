#include "tables/sources.h"

#include "read/yaml_value.h"
#include "tables/row.h"

static struct source_row *
source_of_id(struct arena *a, struct slice id, struct sources *out)
{
    for (size_t i = 0; i < out->count; i++)
        if (slice_is(id, out->items[i].id))
            return &out->items[i];
    struct source_row *row = LIST_GROW(a, out);
    row->id = slice_string(a, id);
    return row;
}

void
sources_load(struct arena *a, const struct yaml_node *root, struct notices *notices,
             struct sources *out)
{
    static const char *const keys[] = {"title", "locator", "kind", NULL};
    const struct yaml_node *rows = yaml_get(root, "sources");
    for (size_t i = 0; rows != NULL && rows->kind == YAML_MAP_NODE && i < rows->count; i++) {
        const struct yaml_node *key = yaml_key(rows, i), *map = yaml_value(rows, i);
        const struct yaml_node *title = yaml_get(map, "title");
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
        if (title == NULL)
            row_wrong(&row, key, "Add title: a short citation, as readers are to see it.",
                      "the source has no title");
        else if (row_text(&row, title, "title"))
            source_of_id(a, key->text, out)->title = slice_string(a, title->text);
    }
}
