#include "read/front_ingredients.h"

#include <string.h>

#include "read/yaml_source.h"
#include "read/yaml_value.h"

/* a line that YAML folded into the one above, though its writer gave it a dash */
static void
check_runs_on(struct front_reader *r, const struct yaml_node *line)
{
    /* one that stands in one line has a length */
    if (line->quoted || line->place.length > 0)
        return;
    for (size_t at = 0; at + 1 < line->source.length; at++) {
        if (yaml_break_at(line->source, at) == 0)
            continue;
        while (at + 1 < line->source.length && strchr(" \t\r\n", line->source.at[at]) != NULL)
            at++;
        if (line->source.at[at] != '-' && line->source.at[at] != '*')
            continue;
        struct place place = line->place;
        yaml_place_move(&place, line->source, 0, at);
        size_t end = at;
        while (end < line->source.length && yaml_break_at(line->source, end) == 0)
            end++;
        const struct slice words = slice_trim(slice_part(line->source, at, end));
        place.length = (uint32_t)slice_characters(words);
        notice_add(r->notices, RULE_LINE_RUNS_ON, place, words, SLICE(""));
    }
}

/* "- For the base:": a part that was given a dash */
static bool
is_part_in_list(const struct yaml_node *line)
{
    return line->kind == YAML_MAP_NODE && line->count == 1 &&
           !slice_is(yaml_key(line, 0)->text, "or") &&
           (front_nothing(yaml_value(line, 0)) || yaml_value(line, 0)->kind == YAML_LIST_NODE);
}

static void
read_lines(struct front_reader *r, const struct yaml_node *key, const struct yaml_node *list,
           struct part_lines *out)
{
    out->lines = arena_take_array(r->arena, list->count, sizeof(const struct yaml_node *));
    for (size_t i = 0; i < list->count; i++) {
        const struct yaml_node *line = list->items[i];
        if (line->kind == YAML_LIST_NODE)
            front_wrong_type(r, key, line, "a list of lines; a list stands within it");
        else if (front_nothing(line) ||
                 (line->kind == YAML_SCALAR_NODE && slice_trim(line->text).length == 0))
            notice_add(r->notices, RULE_LINE_UNREADABLE, line->place, SLICE("nothing"), SLICE(""));
        else if (is_part_in_list(line))
            front_wrong_type(r, yaml_key(line, 0), yaml_key(line, 0),
                             "a key without a dash, if it is a part, with its own lines below it");
        else
            out->lines[out->count++] = line;
        if (line->kind == YAML_SCALAR_NODE)
            check_runs_on(r, line);
    }
}

void
front_ingredients_read(struct front_reader *r, const struct yaml_node *key,
                       const struct yaml_node *value, struct part_lines **parts, size_t *count)
{
    if (front_nothing(value))
        return;
    if (value->kind == YAML_SCALAR_NODE) {
        front_wrong_type(
            r, key, value,
            "a list of lines, each with a dash and a space before it, or a map from part to "
            "list");
        return;
    }
    const bool one = value->kind == YAML_LIST_NODE;
    *parts = arena_take_array(r->arena, one ? 1 : value->count, sizeof **parts);
    *count = 0;
    for (size_t i = 0; i < (one ? 1 : value->count); i++) {
        struct part_lines *part = &(*parts)[*count];
        const struct yaml_node *list = one ? value : yaml_value(value, i);
        if (list->kind != YAML_LIST_NODE) {
            front_wrong_type(r, yaml_key(value, i), list, "a list of lines");
            continue;
        }
        if (!one)
            part->name = front_part(yaml_key(value, i), 0, yaml_key(value, i)->text.length);
        read_lines(r, key, list, part);
        *count += part->count > 0;
    }
}
