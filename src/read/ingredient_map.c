#include "read/ingredient_line.h"

#include <string.h>

#include "base/list.h"
#include "read/front_matter.h"
#include "read/line_amounts.h"
#include "read/number.h"
#include "read/ingredient_map.h"
#include "read/yaml_source.h"
#include "read/yaml_value.h"

static const char *const keys[] = {"food", "amount", "also",  "optional",
                                   "or",   "stays",  "after", NULL};

struct reader {
    struct arena *arena;
    const struct lexicon *lexicon;
    struct notices *notices;
    struct ingredient_line *out;
};

static void
wrong(struct reader *r, const struct yaml_node *value, const char *what, const char *should)
{
    notice_add(r->notices, RULE_VALUE_WRONG_TYPE, value->place, slice_of(what), slice_of(should));
}

/* the amounts of a text that holds nothing else; a number alone counts pieces */
static void
read_amounts(struct reader *r, const struct yaml_node *value, const char *key,
             struct amount_list *list)
{
    if (value->kind != YAML_SCALAR_NODE) {
        wrong(r, value, key, "an amount, such as 170 g");
        return;
    }
    struct clean_line clean = line_clean(r->arena, slice_part(value->text, 0, LINE_BYTES_MOST));
    struct line_reader reader = {.arena = r->arena, .lexicon = r->lexicon, .clean = &clean};
    struct amount_list found = {0};
    size_t end = line_amounts(&reader, 0, clean.length, &found);
    if (found.count == 0 || end < clean.length) {
        struct slice rest = {clean.bytes + end, clean.length - end};
        if (found.count == 1 && found.items[0].unit == NULL)
            notice_add(r->notices, RULE_UNIT_UNKNOWN,
                       yaml_place_in(value, clean.origin[end], value->text.length), rest,
                       SLICE(""));
        else
            notice_add(r->notices, RULE_VALUE_UNREADABLE, value->place, value->text,
                       SLICE("an amount, such as 170 g"));
        return;
    }
    for (size_t i = 0; i < found.count; i++) {
        /* bytes of another value than the food's: the food's place stands for them */
        found.items[i].from = found.items[i].to = 0;
        *LIST_GROW(r->arena, list) = found.items[i];
    }
}

/* how much stays: "20 %", "10-20 %", a half, yes, no, 0.2 */
static void
read_stays(struct reader *r, const struct yaml_node *value)
{
    bool truth, about;
    double share;
    struct span span;
    struct slice text = value->kind == YAML_SCALAR_NODE ? slice_trim(value->text) : SLICE("");
    bool percent = slice_ends(text, "%");
    if (percent)
        text = slice_trim(slice_part(text, 0, text.length - 1));
    if (!percent && yaml_truth(value, &truth))
        span = span_exact(truth);
    else if (!percent && yaml_number(value, &share))
        span = span_exact(share);
    else if (slice_is_anycase(text, "none") || slice_is_anycase(text, "nothing"))
        span = span_exact(0);
    else if (slice_is_anycase(text, "all"))
        span = span_exact(1);
    else if (text.length == 0 ||
             amount_number(r->lexicon->lists, text, 0, &span, &about) != text.length)
        span = span_exact(-1);
    else if (percent)
        span = span_scale(span, 0.01);
    if (span.low < 0 || span.high > 1) {
        notice_add(r->notices, RULE_VALUE_UNREADABLE, value->place, value->text,
                   SLICE("a part that stays: 20 %, 0.2, yes or no"));
        return;
    }
    r->out->has_stays = true;
    r->out->stays = span;
}

static void
add_options(struct reader *r, const struct ingredient_line *other)
{
    struct ingredient_line *out = r->out;
    size_t count = out->option_count + other->option_count;
    struct written_option *options = arena_take_array(r->arena, count, sizeof *options);
    if (out->option_count > 0)
        memcpy(options, out->options, out->option_count * sizeof *options);
    for (size_t i = 0; i < other->option_count; i++) {
        /* their bytes are of another value than the line's */
        for (size_t j = 0; j < other->options[i].count; j++)
            other->options[i].foods[j].name_from = other->options[i].foods[j].name_to = 0;
        options[out->option_count + i] = other->options[i];
    }
    out->options = options;
    out->option_count = count;
}

/* each is reckoned with every choice of the other lines */
enum { ALTERNATIVES_MOST = 30 };

static void
read_or(struct reader *r, const struct yaml_node *value)
{
    size_t count = value->kind == YAML_LIST_NODE ? value->count : 1;
    for (size_t i = 0; i < count; i++) {
        const struct yaml_node *one = value->kind == YAML_LIST_NODE ? value->items[i] : value;
        struct ingredient_line other;
        if (i == ALTERNATIVES_MOST) {
            wrong(r, one, "or", "at most 30 alternatives; the others are left out");
            return;
        }
        if (one->kind == YAML_LIST_NODE) {
            wrong(r, one, "or", "a line, or a list of them");
            continue;
        }
        if (one->kind == YAML_MAP_NODE)
            ingredient_line_read_map(r->arena, one, r->lexicon, r->notices, &other);
        else
            ingredient_line_read(r->arena, one->text, one, r->lexicon, r->notices, &other);
        add_options(r, &other);
    }
}

static void
set_amounts(struct ingredient_line *out, const struct amount_list *list)
{
    for (size_t i = 0; i < out->option_count; i++) {
        for (size_t j = 0; j < out->options[i].count; j++) {
            struct written_food *food = &out->options[i].foods[j];
            if (food->amount_count == 0) {
                food->amounts = list->items;
                food->amount_count = list->count;
            }
        }
    }
}

/* YAML reads "- flour: 200 g" as a map; it was meant as a line */
static bool
is_plain_line(const struct yaml_node *map)
{
    if (map->count != 1 || yaml_value(map, 0)->kind != YAML_SCALAR_NODE)
        return false;
    for (size_t i = 0; keys[i] != NULL; i++)
        if (slice_is(yaml_key(map, 0)->text, keys[i]))
            return false;
    return true;
}

static void
read_plain_line(struct reader *r, const struct yaml_node *map)
{
    const struct yaml_node *key = yaml_key(map, 0), *value = yaml_value(map, 0);
    struct yaml_node *line = arena_take(r->arena, sizeof *line);
    struct slice from = key->source, to = value->source;
    *line = *key;
    if (to.at >= from.at + from.length && !key->quoted && !value->quoted)
        line->source = line->text = (struct slice){from.at, (size_t)(to.at - from.at) + to.length};
    else
        line->text =
            text_formatted(r->arena, "%.*s: %.*s", SLICE_ARGS(key->text), SLICE_ARGS(value->text));
    ingredient_line_read(r->arena, line->text, line, r->lexicon, r->notices, r->out);
}

static void
read_food(struct reader *r, const struct yaml_node *map)
{
    const struct yaml_node *food = yaml_get(map, "food");
    if (food == NULL || food->kind != YAML_SCALAR_NODE || slice_trim(food->text).length == 0) {
        if (food != NULL && food->kind != YAML_SCALAR_NODE)
            wrong(r, food, "food", "the name of a food");
        notice_add(r->notices, RULE_LINE_UNREADABLE, map->place, SLICE("no food"), SLICE(""));
        *r->out = (struct ingredient_line){.node = map};
        return;
    }
    ingredient_line_read(r->arena, food->text, food, r->lexicon, r->notices, r->out);
}

static void
set_after(struct reader *r, const struct yaml_node *value)
{
    if (value->kind != YAML_SCALAR_NODE) {
        wrong(r, value, "after", "words");
        return;
    }
    for (size_t i = 0; i < r->out->option_count; i++)
        for (size_t j = 0; j < r->out->options[i].count; j++)
            r->out->options[i].foods[j].after = slice_trim(value->text);
}

void
ingredient_line_read_map(struct arena *a, const struct yaml_node *map,
                         const struct lexicon *lexicon, struct notices *notices,
                         struct ingredient_line *out)
{
    struct reader r = {a, lexicon, notices, out};
    struct amount_list list = {0};
    if (is_plain_line(map)) {
        read_plain_line(&r, map);
        return;
    }
    read_food(&r, map);
    for (size_t i = 0; i < map->count; i++) {
        const struct yaml_node *key = yaml_key(map, i), *value = yaml_value(map, i);
        if (slice_is(key->text, "optional")) {
            if (!yaml_truth(value, &out->optional))
                wrong(&r, value, "optional", "yes or no");
        } else if (slice_is(key->text, "stays")) {
            read_stays(&r, value);
        } else if (slice_is(key->text, "after")) {
            set_after(&r, value);
        } else if (slice_is(key->text, "amount") ||
                   (slice_is(key->text, "also") && value->kind == YAML_SCALAR_NODE)) {
            read_amounts(&r, value, slice_is(key->text, "also") ? "also" : "amount", &list);
        } else if (slice_is(key->text, "also") && value->kind == YAML_LIST_NODE) {
            for (size_t j = 0; j < value->count; j++)
                read_amounts(&r, value->items[j], "also", &list);
        } else if (slice_is(key->text, "also")) {
            wrong(&r, value, "also", "an amount, such as 1 cup");
        } else if (!slice_is(key->text, "or") && !slice_is(key->text, "food")) {
            front_matter_unknown_key(&(struct front_reader){a, lexicon->lists, notices}, key, keys);
        }
    }
    if (yaml_get(map, "or") != NULL)
        read_or(&r, yaml_get(map, "or"));
    if (list.count > 0)
        set_amounts(out, &list);
}
