#include "tables/cautions.h"

#include <string.h>

#include "base/list.h"
#include "read/yaml_value.h"
#include "tables/foods.h"
#include "tables/row_phrases.h"

static const char *const levels[] = {"error", "warning", "note", NULL};

/* a caution while it is read, and the meanings that its triggers may name */
struct caution_row {
    struct row *row;
    const struct cooking *cooking;
};

/* {low, high} or [low, high]; an end left out is open */
static bool
take_span(struct row *row, const struct yaml_node *node, const char *part, struct span *out)
{
    const struct yaml_node *low = yaml_get(node, "low"), *high = yaml_get(node, "high");
    const double far = 1e9;
    double from = -far, to = far;
    if (node->kind == YAML_LIST_NODE && node->count == 2) {
        low = node->items[0];
        high = node->items[1];
    }
    if (low == NULL && high == NULL)
        return row_wants(
            row, node, part, "a mapping of low and high",
            text_format(row->arena, "%s: {low: 60, high: 90}; an end may be left out", part));
    if ((low != NULL && !row_number(row, low, part, -far, far, &from)) ||
        (high != NULL && !row_number(row, high, part, -far, far, &to)))
        return false;
    if (from > to)
        return row_wrong(row, low, "Put the smaller one under low.", "%s has low over high", part);
    *out = span_between(from, to);
    return true;
}

static bool
take_list_key(struct row *row, struct slice key, const struct yaml_node *value,
              struct caution_trigger *t)
{
    const struct {
        const char *key;
        const char ***list;
    } lists[] = {
        {"food-words", &t->food_words},
        {"food-lacks", &t->food_lacks},
        {"step-words", &t->step_words},
        {"also-words", &t->also_words},
        {"unless-words", &t->unless_words},
        {"post-lacks", &t->post_lacks},
        {"title-words", &t->title_words},
        {"title-lacks", &t->title_lacks},
        {"with", &t->with},
        {"unless-foods", &t->unless_foods},
        {"unless-tags", &t->unless_tags},
    };
    for (size_t i = 0; i < sizeof lists / sizeof *lists; i++)
        if (slice_is(key, lists[i].key)) {
            *lists[i].list = row_phrases(row, value, lists[i].key);
            return true;
        }
    return false;
}

/* one of the known words */
static void
take_word(struct row *row, const struct yaml_node *node, const char *part, const char *kind,
          const char *const *known, const char **out)
{
    int word = row_word(node->text, known);
    if (word < 0)
        row_word_unknown(row, node, part, kind, known);
    else
        *out = known[word];
}

/* the number of a meaning goes into `out` */
static void
take_meaning(const struct caution_row *from, const struct yaml_node *node, const char *part,
             struct meanings *out)
{
    if (!row_text(from->row, node, part))
        return;
    const int number = cooking_meaning(from->cooking, node->text);
    if (number >= 0)
        meanings_put(out, number);
    else
        row_word_unknown(from->row, node, part, "meaning", cooking_meanings(from->cooking));
}

static struct meanings
take_meanings(const struct caution_row *from, const struct yaml_node *node, const char *part)
{
    struct meanings out = {{0}};
    const bool list = node->kind == YAML_LIST_NODE;
    for (size_t i = 0; i < (list ? node->count : 1); i++)
        take_meaning(from, list ? node->items[i] : node, part, &out);
    return out;
}

/* [[hold, keep], [out]]: one of the first and one of the second */
static void
take_happens(const struct caution_row *from, const struct yaml_node *node,
             struct caution_trigger *t)
{
    if (node->kind != YAML_LIST_NODE || node->count == 0) {
        row_wants(from->row, node, "happens", "a list of lists of meanings",
                  "it as [[hold, keep], [out]]");
        return;
    }
    t->happens = arena_take_array(from->row->texts, node->count, sizeof *t->happens);
    for (size_t i = 0; i < node->count; i++)
        t->happens[t->happens_count++] = take_meanings(from, node->items[i], "happens");
}

static bool
take_clause_key(const struct caution_row *from, struct slice key, const struct yaml_node *v,
                struct caution_trigger *t)
{
    const bool before = t->clause;
    t->clause = true;
    if (slice_is(key, "happens"))
        take_happens(from, v, t);
    else if (slice_is(key, "happens-not"))
        t->happens_not = take_meanings(from, v, "happens-not");
    else if (slice_is(key, "after"))
        t->after = take_meanings(from, v, "after");
    else if (slice_is(key, "not-after"))
        t->not_after = take_meanings(from, v, "not-after");
    else if (slice_is(key, "anything"))
        row_truth(from->row, v, "anything", &t->anything);
    else if (slice_is(key, "each")) {
        t->clause = before;
        row_truth(from->row, v, "each", &t->each);
    } else if (slice_is(key, "only"))
        row_truth(from->row, v, "only", &t->only);
    else {
        t->clause = before;
        return false;
    }
    t->has_after = t->has_after || slice_is(key, "after");
    return true;
}

static void
take_classes(struct row *row, const struct yaml_node *v, struct caution_trigger *t)
{
    const char *known[CLASSES + 1] = {NULL};
    const bool list = v->kind == YAML_LIST_NODE;
    for (int c = 0; c < CLASSES; c++)
        known[c] = groups_class_word((enum food_class)c);
    for (size_t i = 0; i < (list ? v->count : 1); i++) {
        const struct yaml_node *one = list ? v->items[i] : v;
        const int c = row_text(row, one, "class") ? row_word(one->text, known) : -1;
        if (c >= 0)
            t->classes |= 1u << c;
        else
            row_word_unknown(row, one, "class", "class of foods", known);
    }
}

static void
take_trigger(const struct caution_row *from, const struct yaml_node *map, struct caution_trigger *t)
{
    struct row *row = from->row;
    static const char *const heats[] = {"oven",  "food", "oil", "syrup",
                                        "water", "room", "any", NULL};
    static const char *const parts[] = {"spent", "storage", "any", NULL};
    static const char *const keys[] = {
        "tags",        "food-words",  "food-lacks", "step-words",   "also-words",  "unless-words",
        "post-lacks",  "title-words", "celsius",    "heat-of",      "seconds",     "duration-part",
        "happens",     "happens-not", "after",      "not-after",    "never",       "anything",
        "title-lacks", "with",        "with-grams", "unless-foods", "unless-tags", "class",
        "only",        "each",        NULL};
    t->heat_of = "any";
    t->duration_part = "any";
    if (map->kind != YAML_MAP_NODE || map->count == 0) {
        row_wants(row, map, "a trigger", "a mapping that says something",
                  "it as {food-words: [one, another]}");
        return;
    }
    for (size_t i = 0; i < map->count; i++) {
        const struct yaml_node *k = yaml_key(map, i), *v = yaml_value(map, i);
        if (slice_is(k->text, "celsius"))
            t->has_celsius = take_span(row, v, "celsius", &t->celsius);
        else if (slice_is(k->text, "seconds"))
            t->has_seconds = take_span(row, v, "seconds", &t->seconds);
        else if (slice_is(k->text, "heat-of"))
            take_word(row, v, "heat-of", "kind of heat", heats, &t->heat_of);
        else if (slice_is(k->text, "duration-part"))
            take_word(row, v, "duration-part", "part of the time", parts, &t->duration_part);
        else if (slice_is(k->text, "tags"))
            t->tags = row_phrases(row, v, "tags");
        else if (slice_is(k->text, "with-grams"))
            take_span(row, v, "with-grams", &t->with_grams);
        else if (slice_is(k->text, "never"))
            t->never = take_meanings(from, v, "never");
        else if (slice_is(k->text, "class"))
            take_classes(row, v, t);
        else if (!take_list_key(row, k->text, v, t) && !take_clause_key(from, k->text, v, t))
            row_key_unknown(row, k, "a trigger", keys);
    }
    t->clause = t->clause || t->step_words != NULL || t->also_words != NULL || t->has_celsius ||
                t->has_seconds;
}

static bool
same_texts(const char *const *a, const char *const *b)
{
    for (; a != NULL && b != NULL && *a != NULL && *b != NULL && strcmp(*a, *b) == 0; a++)
        b++;
    return a == NULL || b == NULL ? a == b : *a == NULL && *b == NULL;
}

/* whether a trigger names the foods of the one before it, which need not be looked for again */
static bool
names_same_foods(const struct caution_trigger *t, const struct caution_trigger *before)
{
    return same_texts((const char *const *)t->tags, (const char *const *)before->tags) &&
           same_texts((const char *const *)t->food_words,
                      (const char *const *)before->food_words) &&
           same_texts((const char *const *)t->food_lacks,
                      (const char *const *)before->food_lacks) &&
           t->classes == before->classes;
}

static void
take_triggers(const struct caution_row *from, const struct yaml_node *node, struct caution *c)
{
    bool list = node->kind == YAML_LIST_NODE;
    c->trigger_count = list ? node->count : 1;
    c->triggers = arena_take_array(from->row->texts, c->trigger_count, sizeof *c->triggers);
    for (size_t i = 0; i < c->trigger_count; i++) {
        take_trigger(from, list ? node->items[i] : node, &c->triggers[i]);
        c->triggers[i].same_foods = i > 0 && names_same_foods(&c->triggers[i], &c->triggers[i - 1]);
    }
}

static bool
take_text_key(struct row *row, struct slice key, const struct yaml_node *value, struct caution *c)
{
    const struct {
        const char *key;
        const char **text;
    } texts[] = {
        {"words", &c->words},   {"finding", &c->finding}, {"mend", &c->mend},
        {"source", &c->source}, {"defer", &c->defer},
    };
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++)
        if (slice_is(key, texts[i].key)) {
            if (row_text(row, value, texts[i].key))
                *texts[i].text = slice_string(row->texts, slice_trim(value->text));
            return true;
        }
    return false;
}

static void
take_basis(struct row *row, const struct yaml_node *v, struct caution *c)
{
    const char *known[BASIS_MEMORY + 1] = {NULL};
    for (int b = BASIS_MEASURED; b <= BASIS_MEMORY; b++) {
        known[b - BASIS_MEASURED] = figure_basis_word((enum basis)b);
        if (slice_is(v->text, figure_basis_word((enum basis)b)))
            c->basis = (enum basis)b;
    }
    if (c->basis == BASIS_NONE)
        row_word_unknown(row, v, "basis", "basis", known);
}

static void
take_key(const struct caution_row *from, const struct yaml_node *k, const struct yaml_node *v,
         struct caution *c)
{
    struct row *row = from->row;
    static const char *const kinds[] = {"hazard", "practice", NULL};
    static const char *const keys[] = {"kind",    "level",      "words", "finding",  "mend",
                                       "source",  "basis",      "defer", "triggers", "trigger",
                                       "changed", "instead-of", NULL};
    const char *kind = kinds[0];
    if (slice_is(k->text, "kind")) {
        take_word(row, v, "kind", "kind of caution", kinds, &kind);
        c->kind = kind == kinds[1] ? CAUTION_PRACTICE : CAUTION_HAZARD;
    } else if (slice_is(k->text, "level")) {
        take_word(row, v, "level", "level", levels, &c->level);
    } else if (slice_is(k->text, "basis")) {
        take_basis(row, v, c);
    } else if (slice_is(k->text, "triggers") || slice_is(k->text, "trigger")) {
        take_triggers(from, v, c);
    } else if (slice_is(k->text, "instead-of")) {
        c->instead_of = row_phrases(row, v, "instead-of");
    } else if (slice_is(k->text, "changed")) {
        if (row_date(row, v))
            c->words_entry.changed = c->trigger_entry.changed = slice_string(row->texts, v->text);
    } else if (!take_text_key(row, k->text, v, c)) {
        row_key_unknown(row, k, "a caution", keys);
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
    const char *const *const lists[] = {t->title_lacks,  t->with,       t->unless_foods,
                                        t->unless_tags,  t->tags,       t->food_words,
                                        t->food_lacks,   t->step_words, t->also_words,
                                        t->unless_words, t->post_lacks, t->title_words};
    double numbers[] = {(double)t->has_celsius, t->celsius.low, t->celsius.high,
                        (double)t->has_seconds, t->seconds.low, t->seconds.high};
    for (size_t i = 0; i < sizeof lists / sizeof *lists; i++)
        d = texts_digest(lists[i], d);
    d = slice_digest((struct slice){(const char *)numbers, sizeof numbers}, d);
    for (size_t i = 0; i < t->happens_count; i++)
        d = slice_digest((struct slice){(const char *)&t->happens[i], sizeof t->happens[i]}, d);
    const struct meanings apart[] = {t->happens_not, t->after, t->not_after, t->never};
    d = slice_digest((struct slice){(const char *)apart, sizeof apart},
                     d ^ t->anything ^ (uint64_t)t->only << 4 ^ (uint64_t)t->each << 5 ^
                         (uint64_t)t->classes << 8 ^ (uint64_t)t->with_grams.low << 32);
    return slice_digest(slice_of(t->duration_part), slice_digest(slice_of(t->heat_of), d));
}

static void
build_entries(struct arena *a, struct caution *c)
{
    const char *texts[] = {c->level, c->words, c->finding, c->mend, c->source, c->defer};
    uint64_t d = slice_digest(SLICE("trigger"), (uint64_t)c->kind);
    for (size_t i = 0; i < c->trigger_count; i++)
        d = trigger_digest(&c->triggers[i], d);
    reads_entry_name(&c->trigger_entry, text_format(a, "caution:%s/trigger", c->id));
    c->trigger_entry.digest = d;
    d = slice_digest(SLICE("words"), (uint64_t)c->basis);
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++)
        d = slice_digest(slice_of(texts[i]), d);
    d = texts_digest(c->instead_of, d);
    reads_entry_name(&c->words_entry, text_format(a, "caution:%s/words", c->id));
    c->words_entry.digest = d;
}

/* what every caution has, and one of a practice more */
static void
check_whole(struct row *row, const struct yaml_node *key, const struct caution *c)
{
    const struct {
        const char *what;
        bool there;
    } parts[] = {
        {"words", c->words != NULL},
        {"source", c->source != NULL},
        {"basis", c->basis != BASIS_NONE},
        {"triggers", c->trigger_count > 0},
        {"finding", c->kind != CAUTION_PRACTICE || c->finding != NULL},
        {"level", c->kind != CAUTION_PRACTICE || c->level != NULL},
    };
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++)
        if (!parts[i].there)
            row_wrong(row, key, text_format(row->arena, "Add %s:.", parts[i].what),
                      "the caution has no %s", parts[i].what);
}

static bool
take_caution(const struct caution_row *from, const struct yaml_node *key,
             const struct yaml_node *map, struct caution *c)
{
    struct row *row = from->row;
    *c = (struct caution){.id = slice_string(row->texts, key->text), .kind = CAUTION_HAZARD};
    if (map->kind != YAML_MAP_NODE)
        return row_wants(row, map, "the caution", "a mapping",
                         "it as a mapping with words, source, basis and triggers");
    for (size_t i = 0; i < map->count; i++)
        take_key(from, yaml_key(map, i), yaml_value(map, i), c);
    if (!row->wrong)
        check_whole(row, key, c);
    build_entries(row->texts, c);
    return !row->wrong;
}

static size_t
place_of_id(const struct cautions *all, struct slice id)
{
    size_t at = 0;
    while (at < all->count && !slice_is(id, all->items[at].id))
        at++;
    return at;
}

bool
cautions_load(struct arena *a, const struct yaml_node *root, const struct cooking *cooking,
              struct notices *notices, struct cautions *out)
{
    size_t room = out->count;
    const struct yaml_node *rows = yaml_get(root, "cautions");
    for (size_t i = 0; rows != NULL && rows->kind == YAML_MAP_NODE && i < rows->count; i++) {
        struct row row = {.arena = a, .texts = a, .notices = notices};
        struct caution c;
        row.entry = yaml_key(rows, i)->text;
        size_t at = place_of_id(out, row.entry);
        row.until = at < out->count ? "Until then the caution of the tables before this one holds."
                                    : "Until then the caution is left out.";
        struct caution_row from = {&row, cooking};
        if (!take_caution(&from, yaml_key(rows, i), yaml_value(rows, i), &c))
            continue;
        if (at == out->count)
            out->items = list_room(a, out->items, &room, out->count++, sizeof c);
        out->items[at] = c;
    }
    return true;
}
