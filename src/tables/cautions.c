#include "tables/cautions.h"

#include <string.h>

#include "base/list.h"
#include "read/yaml_value.h"

/* the table being read */
struct page {
    struct arena *arena;
    struct notices *notices;
    struct slice row; /* the caution being read */
    bool wrong;
};

static void
row_wrong(struct page *page, const struct yaml_node *node, const char *why)
{
    notice_add(page->notices, RULE_TABLE_ROW_WRONG, node->place, slice_copy(page->arena, page->row),
               slice_of(why));
    page->wrong = true;
}

/* a list of texts, or one text alone; NULL-terminated */
static const char **
take_texts(struct page *page, const struct yaml_node *node)
{
    size_t count = node->kind == YAML_LIST_NODE ? node->count : 1;
    const char **texts = arena_take_array(page->arena, count + 1, sizeof *texts);
    if (node->kind == YAML_SCALAR_NODE) {
        texts[0] = slice_string(page->arena, node->text);
    } else if (node->kind == YAML_LIST_NODE) {
        for (size_t i = 0; i < count; i++)
            texts[i] = slice_string(page->arena, node->items[i]->text);
    } else {
        row_wrong(page, node, "a list of texts is expected");
    }
    return texts;
}

/* {low, high} or [low, high]; an end left out is open */
static bool
take_span(struct page *page, const struct yaml_node *node, struct span *out)
{
    const struct yaml_node *low = yaml_get(node, "low"), *high = yaml_get(node, "high");
    if (node->kind == YAML_LIST_NODE && node->count == 2) {
        low = node->items[0];
        high = node->items[1];
    }
    double from = -1e9, to = 1e9;
    if ((low == NULL && high == NULL) || (low != NULL && !yaml_number(low, &from)) ||
        (high != NULL && !yaml_number(high, &to)) || from > to) {
        row_wrong(page, node, "a mapping of low and high is expected");
        return false;
    }
    *out = span_between(from, to);
    return true;
}

static bool
take_list_key(struct page *page, struct slice key, const struct yaml_node *value,
              struct caution_trigger *t)
{
    const struct {
        const char *key;
        struct phrases *list;
    } lists[] = {
        {"food-words", &t->food_words},     {"food-lacks", &t->food_lacks},
        {"step-words", &t->step_words},     {"also-words", &t->also_words},
        {"unless-words", &t->unless_words}, {"post-lacks", &t->post_lacks},
        {"title-words", &t->title_words},
    };
    for (size_t i = 0; i < sizeof lists / sizeof *lists; i++)
        if (slice_is(key, lists[i].key)) {
            phrases_lay(page->arena, take_texts(page, value), lists[i].list);
            return true;
        }
    return false;
}

static void
take_trigger(struct page *page, const struct yaml_node *map, struct caution_trigger *t)
{
    t->heat_of = "any";
    t->duration_part = "any";
    if (map->kind != YAML_MAP_NODE || map->count == 0) {
        row_wrong(page, map, "a trigger is a mapping that says something");
        return;
    }
    for (size_t i = 0; i < map->count; i++) {
        const struct yaml_node *k = yaml_key(map, i), *v = yaml_value(map, i);
        if (slice_is(k->text, "celsius"))
            t->has_celsius = take_span(page, v, &t->celsius);
        else if (slice_is(k->text, "seconds"))
            t->has_seconds = take_span(page, v, &t->seconds);
        else if (slice_is(k->text, "heat-of"))
            t->heat_of = slice_string(page->arena, v->text);
        else if (slice_is(k->text, "duration-part"))
            t->duration_part = slice_string(page->arena, v->text);
        else if (slice_is(k->text, "tags"))
            t->tags = take_texts(page, v);
        else if (!take_list_key(page, k->text, v, t))
            row_wrong(page, k, "is no key of a trigger");
    }
}

static void
take_triggers(struct page *page, const struct yaml_node *node, struct caution *c)
{
    bool list = node->kind == YAML_LIST_NODE;
    c->trigger_count = list ? node->count : 1;
    c->triggers = arena_take_array(page->arena, c->trigger_count, sizeof *c->triggers);
    for (size_t i = 0; i < c->trigger_count; i++)
        take_trigger(page, list ? node->items[i] : node, &c->triggers[i]);
}

static bool
take_text_key(struct page *page, struct slice key, const struct yaml_node *value, struct caution *c)
{
    const struct {
        const char *key;
        const char **text;
    } texts[] = {
        {"level", &c->level}, {"words", &c->words},   {"finding", &c->finding},
        {"mend", &c->mend},   {"source", &c->source}, {"defer", &c->defer},
    };
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++)
        if (slice_is(key, texts[i].key)) {
            *texts[i].text = slice_string(page->arena, slice_trim(value->text));
            return true;
        }
    return false;
}

static void
take_key(struct page *page, const struct yaml_node *k, const struct yaml_node *v, struct caution *c)
{
    if (slice_is(k->text, "kind")) {
        if (slice_is(v->text, "practice"))
            c->kind = CAUTION_PRACTICE;
        else if (!slice_is(v->text, "hazard"))
            row_wrong(page, v, "a caution is of a hazard or a practice");
    } else if (slice_is(k->text, "basis")) {
        for (int b = BASIS_MEASURED; b <= BASIS_MEMORY; b++)
            if (slice_is(v->text, basis_word((enum basis)b)))
                c->basis = (enum basis)b;
    } else if (slice_is(k->text, "triggers") || slice_is(k->text, "trigger")) {
        take_triggers(page, v, c);
    } else if (slice_is(k->text, "changed")) {
        c->words_entry.changed = c->trigger_entry.changed = slice_string(page->arena, v->text);
    } else if (!take_text_key(page, k->text, v, c)) {
        row_wrong(page, k, "is no key of a caution");
    }
}

static uint64_t
texts_digest(const char *const *texts, uint64_t d)
{
    if (texts == NULL)
        return slice_digest(SLICE("none"), d);
    for (; *texts != NULL; texts++)
        d = slice_digest(slice_of(*texts), d);
    return slice_digest(SLICE("end"), d);
}

static uint64_t
trigger_digest(const struct caution_trigger *t, uint64_t d)
{
    const char *const *const lists[] = {t->tags,
                                        t->food_words.items,
                                        t->food_lacks.items,
                                        t->step_words.items,
                                        t->also_words.items,
                                        t->unless_words.items,
                                        t->post_lacks.items,
                                        t->title_words.items};
    double numbers[] = {(double)t->has_celsius, t->celsius.low, t->celsius.high,
                        (double)t->has_seconds, t->seconds.low, t->seconds.high};
    for (size_t i = 0; i < sizeof lists / sizeof *lists; i++)
        d = texts_digest(lists[i], d);
    d = slice_digest((struct slice){(const char *)numbers, sizeof numbers}, d);
    return slice_digest(slice_of(t->duration_part), slice_digest(slice_of(t->heat_of), d));
}

static void
lay_entries(struct arena *a, struct caution *c)
{
    const char *texts[] = {c->level, c->words, c->finding, c->mend, c->source, c->defer};
    uint64_t d = slice_digest(SLICE("trigger"), (uint64_t)c->kind);
    for (size_t i = 0; i < c->trigger_count; i++)
        d = trigger_digest(&c->triggers[i], d);
    c->trigger_entry.key = text_format(a, "caution:%s/trigger", c->id);
    c->trigger_entry.digest = d;
    d = slice_digest(SLICE("words"), (uint64_t)c->basis);
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++)
        d = slice_digest(slice_of(texts[i]), d);
    c->words_entry.key = text_format(a, "caution:%s/words", c->id);
    c->words_entry.digest = d;
}

static bool
take_caution(struct page *page, const struct yaml_node *key, const struct yaml_node *map,
             struct caution *c)
{
    page->row = key->text;
    page->wrong = false;
    *c = (struct caution){.id = slice_string(page->arena, key->text), .kind = CAUTION_HAZARD};
    if (map->kind != YAML_MAP_NODE)
        row_wrong(page, map, "a caution is a mapping");
    for (size_t i = 0; map->kind == YAML_MAP_NODE && i < map->count; i++)
        take_key(page, yaml_key(map, i), yaml_value(map, i), c);
    if (c->words == NULL || c->source == NULL || c->basis == BASIS_NONE || c->trigger_count == 0)
        row_wrong(page, key, "a caution has words, a source, a basis and a trigger");
    if (c->kind == CAUTION_PRACTICE && (c->finding == NULL || c->level == NULL))
        row_wrong(page, key, "a caution of a practice has a finding and its level");
    lay_entries(page->arena, c);
    return !page->wrong;
}

bool
cautions_load(struct arena *a, const struct yaml_node *const *roots, size_t count,
              struct notices *notices, struct cautions *out)
{
    struct page page = {.arena = a, .notices = notices};
    size_t room = out->count;
    for (size_t r = 0; r < count; r++) {
        const struct yaml_node *rows = yaml_get(roots[r], "cautions");
        for (size_t i = 0; rows != NULL && rows->kind == YAML_MAP_NODE && i < rows->count; i++) {
            struct caution c;
            if (!take_caution(&page, yaml_key(rows, i), yaml_value(rows, i), &c))
                continue;
            size_t at = 0;
            while (at < out->count && strcmp(out->items[at].id, c.id) != 0)
                at++;
            if (at == out->count)
                out->items = list_room(a, out->items, &room, out->count++, sizeof c);
            out->items[at] = c;
        }
    }
    return true;
}
