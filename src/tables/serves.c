#include "tables/serves.h"

#include <string.h>

#include "read/yaml_value.h"
#include "tables/row.h"

static const char *const list_keys[] = {"food",  "form",   "grams",   "amount",
                                        "phase", "source", "changed", NULL};

/* where rows are read, and what holds for them where they do not say otherwise */
struct reading {
    struct row row;
    struct serves *out;
    const char *path, *source, *changed;
};

static void
take_origin(struct reading *r, const struct yaml_node *map)
{
    const struct yaml_node *source = yaml_get(map, "source"), *changed = yaml_get(map, "changed");
    if (source != NULL && row_text(&r->row, source, "source"))
        r->source = slice_string(r->row.texts, slice_trim(source->text));
    if (changed != NULL && changed->text.length > 0 && row_date(&r->row, changed))
        r->changed = slice_string(r->row.texts, changed->text);
}

static bool
is_origin(struct slice key)
{
    return slice_is(key, "source") || slice_is(key, "changed");
}

static void
add(struct reading *r, struct serve_row row, const struct yaml_node *amount)
{
    if (!row_text(&r->row, amount, "the serve"))
        return;
    struct arena *a = r->row.texts;
    row.food = slice_copy(a, row.food);
    row.form = slice_copy(a, row.form);
    row.phase = slice_copy(a, row.phase);
    row.amount = slice_copy(a, slice_trim(amount->text));
    row.source = r->source;
    row.changed = r->changed;
    row.path = r->path;
    row.place = amount->place;
    *LIST_GROW(a, &r->out->rows) = row;
}

/* {strict: 28 g, wider: 60 g} or {canned: 60 g, dried: {strict: 10 g}}: which keys are phases and
 * which forms, the settling tells */
static void
take_value(struct reading *r, struct serve_row row, const struct yaml_node *value, int depth)
{
    if (value->kind != YAML_MAP_NODE) {
        add(r, row, value);
        return;
    }
    const struct reading outer = *r;
    take_origin(r, value);
    for (size_t i = 0; i < value->count; i++) {
        const struct yaml_node *k = yaml_key(value, i), *v = yaml_value(value, i);
        struct serve_row inner = row;
        if (is_origin(k->text))
            continue;
        if (depth == 0)
            inner.form = k->text;
        else
            inner.phase = k->text;
        if (depth < 2)
            take_value(r, inner, v, depth + 1);
        else
            row_wants(&r->row, v, "the serve", "an amount", "40 g, 2 tbsp or no limit");
    }
    r->source = outer.source;
    r->changed = outer.changed;
}

static void
take_listed(struct reading *r, const struct yaml_node *map)
{
    const struct yaml_node *food = yaml_get(map, "food"), *form = yaml_get(map, "form"),
                           *phase = yaml_get(map, "phase"), *amount = yaml_get(map, "grams");
    const struct reading outer = *r;
    if (amount == NULL)
        amount = yaml_get(map, "amount");
    for (size_t i = 0; map->kind == YAML_MAP_NODE && i < map->count; i++)
        if (row_word(yaml_key(map, i)->text, list_keys) < 0)
            row_key_unknown(&r->row, yaml_key(map, i), "a serve", list_keys);
    if (food == NULL || amount == NULL) {
        row_wrong(&r->row, map, "Give each row a food and its grams.", "the serve has no %s",
                  food == NULL ? "food" : "grams");
        return;
    }
    r->row.entry = food->text;
    take_origin(r, map);
    const struct slice none = SLICE("");
    add(r,
        (struct serve_row){.food = slice_trim(food->text),
                           .form = form != NULL ? slice_trim(form->text) : none,
                           .phase = phase != NULL ? slice_trim(phase->text) : none},
        amount);
    r->source = outer.source;
    r->changed = outer.changed;
}

void
serves_load(struct arena *a, const char *path, const struct yaml_node *root,
            struct notices *notices, struct serves *out)
{
    struct reading r = {.out = out, .path = slice_string(a, slice_of(path))};
    r.row = (struct row){.arena = a, .texts = a, .notices = notices, .entry = SLICE("serves")};
    r.row.until = "Until then the food's composition holds.";
    const struct yaml_node *rows = yaml_get(root, "serves");
    if (rows == NULL)
        rows = root;
    if (root->kind == YAML_MAP_NODE)
        take_origin(&r, root);
    for (size_t i = 0; rows->kind == YAML_LIST_NODE && i < rows->count; i++)
        take_listed(&r, rows->items[i]);
    for (size_t i = 0; rows->kind == YAML_MAP_NODE && i < rows->count; i++) {
        const struct yaml_node *k = yaml_key(rows, i);
        r.row.entry = k->text;
        if (!is_origin(k->text) && !slice_is(k->text, "serves"))
            take_value(&r, (struct serve_row){.food = slice_trim(k->text)}, yaml_value(rows, i), 0);
    }
    if (rows->kind == YAML_SCALAR_NODE && rows->text.length > 0)
        row_wants(&r.row, rows, "the file", "a row for each food", "it as blueberry: 40 g");
}

/* one field of a line, from *at on, behind its comma */
static struct slice
csv_field(struct arena *a, struct slice line, size_t *at)
{
    struct text field = text_new(a);
    size_t i = *at;
    while (i < line.length && (line.at[i] == ' ' || line.at[i] == '\t'))
        i++;
    if (i < line.length && line.at[i] == '"') {
        for (i++; i < line.length &&
                  (line.at[i] != '"' || (i + 1 < line.length && line.at[i + 1] == '"'));
             i++) {
            if (line.at[i] == '"')
                i++;
            text_add_byte(&field, line.at[i]);
        }
        i = slice_find_byte(line, ',', i < line.length ? i : line.length);
    } else {
        const size_t end = slice_find_byte(line, ',', i);
        text_add(&field, slice_trim(slice_part(line, i, end < line.length ? end : line.length)));
        i = end;
    }
    *at = i < line.length ? i + 1 : line.length + 1;
    return text_slice(&field);
}

enum { FIELDS_MOST = 12 };

static size_t
csv_fields(struct arena *a, struct slice line, struct slice fields[FIELDS_MOST])
{
    size_t count = 0;
    for (size_t at = 0; at <= line.length && count < FIELDS_MOST;)
        fields[count++] = csv_field(a, line, &at);
    return count;
}

static bool
is_number(struct slice s)
{
    for (size_t i = 0; i < s.length; i++)
        if ((s.at[i] < '0' || s.at[i] > '9') && s.at[i] != '.')
            return false;
    return s.length > 0;
}

/* in double quotes, which YAML reads as JSON does */
static void
add_quoted(struct text *t, struct slice s)
{
    text_add_byte(t, '"');
    for (size_t i = 0; i < s.length; i++) {
        if (s.at[i] == '"' || s.at[i] == '\\')
            text_add_byte(t, '\\');
        text_add_byte(t, s.at[i] == '\t' ? ' ' : s.at[i]);
    }
    text_add_byte(t, '"');
}

struct slice
serves_from_csv(struct arena *a, struct slice bytes)
{
    struct slice heads[FIELDS_MOST], fields[FIELDS_MOST];
    struct text yaml = text_new(a);
    size_t head_count = 0;
    if (slice_begins(bytes, "\xef\xbb\xbf"))
        bytes = slice_part(bytes, 3, bytes.length);
    for (size_t at = 0; at < bytes.length;) {
        size_t end = slice_find_byte(bytes, '\n', at);
        if (end > bytes.length)
            end = bytes.length;
        const struct slice line = slice_trim(slice_part(bytes, at, end));
        at = end + 1;
        if (line.length > 0 && head_count == 0) {
            head_count = csv_fields(a, line, heads);
        } else if (line.length > 0) {
            const size_t count = csv_fields(a, line, fields);
            text_add_string(&yaml, "- {");
            for (size_t i = 0, written = 0; i < count && i < head_count; i++) {
                if (fields[i].length == 0)
                    continue;
                text_add_string(&yaml, written++ > 0 ? ", " : "");
                add_quoted(&yaml, heads[i]);
                text_add_string(&yaml, ": ");
                add_quoted(&yaml, slice_is(heads[i], "grams") && is_number(fields[i])
                                      ? text_formatted(a, "%.*s g", SLICE_ARGS(fields[i]))
                                      : fields[i]);
            }
            text_add_byte(&yaml, '}');
        }
        text_add_byte(&yaml, '\n');
    }
    return text_slice(&yaml);
}
