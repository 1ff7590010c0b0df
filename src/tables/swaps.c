#include "tables/swaps.h"

#include <string.h>

#include "read/yaml_value.h"
#include "tables/foods.h"
#include "tables/larder.h"
#include "tables/row.h"

static const char *const keys[] = {"of",    "use",  "ratio",  "up-to", "not-with", "work",
                                   "loses", "also", "source", "basis", "changed",  NULL};

/* the ids or phrases of a list, NULL-terminated */
static const char **
take_list(struct row *row, const struct yaml_node *node, const char *part)
{
    const bool list = node->kind == YAML_LIST_NODE;
    const char **ids = arena_take_array(row->texts, node->count + 1, sizeof *ids);
    if (!list)
        row_wants(row, node, part, "a list", text_format(row->arena, "%s: [one, another]", part));
    for (size_t i = 0; list && i < node->count; i++)
        ids[i] = row_text(row, node->items[i], part)
                     ? slice_string(row->texts, node->items[i]->text)
                     : "";
    return ids;
}

static void
take_text(struct row *row, const struct yaml_node *node, const char *part, const char **out)
{
    if (row_text(row, node, part))
        *out = slice_string(row->texts, slice_trim(node->text));
}

static void
take_key(struct row *row, const struct yaml_node *k, const struct yaml_node *v, struct swap *s)
{
    const struct {
        const char *key;
        const char **text;
    } texts[] = {{"use", &s->use}, {"work", &s->work}, {"loses", &s->loses}, {"also", &s->also}};
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++)
        if (slice_is(k->text, texts[i].key))
            take_text(row, v, texts[i].key, texts[i].text);
    if (slice_is(k->text, "of"))
        s->of = take_list(row, v, "of");
    else if (slice_is(k->text, "not-with"))
        s->not_with = take_list(row, v, "not-with");
    else if (slice_is(k->text, "ratio"))
        row_number(row, v, "ratio", 0.01, 20, &s->ratio);
    else if (slice_is(k->text, "up-to"))
        row_number(row, v, "up-to", 0.1, 1000, &s->up_to);
    else if (slice_is(k->text, "changed") && row_date(row, v))
        s->entry.changed = slice_string(row->texts, v->text);
    else if (row_word(k->text, keys) < 0)
        row_key_unknown(row, k, "a swap", keys);
}

static void
check_whole(struct row *row, const struct yaml_node *key, const struct swap *s)
{
    const struct {
        const char *part;
        bool there;
    } parts[] = {{"of", s->of != NULL && s->of[0] != NULL},
                 {"use", s->use != NULL},
                 {"ratio", s->ratio > 0},
                 {"work", s->work != NULL},
                 {"loses", s->loses != NULL}};
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++)
        if (!parts[i].there)
            row_wrong(row, key, text_format(row->arena, "Add %s:.", parts[i].part),
                      "the swap has no %s", parts[i].part);
}

static uint64_t
digest_of(const struct swap *s)
{
    const double numbers[] = {s->ratio, s->up_to};
    const char *const texts[] = {s->id, s->use, s->work, s->loses, s->also};
    uint64_t d = figure_digest(&s->ground, 0);
    d = slice_digest((struct slice){(const char *)numbers, sizeof numbers}, d);
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++)
        d = slice_digest(slice_of(texts[i] != NULL ? texts[i] : ""), d);
    for (const char **id = s->of; *id != NULL; id++)
        d = slice_digest(slice_of(*id), d);
    for (const char **id = s->not_with; *id != NULL; id++)
        d = slice_digest(slice_of(*id), d + 1);
    return d;
}

static bool
take_swap(struct row *row, const struct yaml_node *key, const struct yaml_node *map, struct swap *s)
{
    static const struct figure_asked asked = {.what = "the swap"};
    static const char *none[] = {NULL};
    *s = (struct swap){.id = slice_string(row->texts, key->text), .not_with = none};
    s->place = key->place;
    if (map->kind != YAML_MAP_NODE)
        return row_wants(row, map, "the swap", "a mapping",
                         "it as {of: [onion], use: chives, ratio: 0.3, ...}");
    for (size_t i = 0; i < map->count; i++)
        take_key(row, yaml_key(map, i), yaml_value(map, i), s);
    figure_read_origin(row, map, &asked, &s->ground);
    if (!row->wrong)
        check_whole(row, key, s);
    if (row->wrong)
        return false;
    reads_entry_name(&s->entry, text_format(row->texts, "swap:%s", s->id));
    s->entry.digest = digest_of(s);
    return true;
}

/* takes the place of the row of its id; else it stands behind the `fresh` other new rows of its
 * layer, which are tried before those of the layers before. Whether it is new. */
static bool
put(struct arena *a, const struct swap *s, size_t fresh, struct swaps *out)
{
    for (size_t i = 0; i < out->count; i++)
        if (strcmp(out->items[i].id, s->id) == 0) {
            out->items[i] = *s;
            return false;
        }
    (void)LIST_GROW(a, out);
    memmove(&out->items[fresh + 1], &out->items[fresh],
            (out->count - 1 - fresh) * sizeof *out->items);
    out->items[fresh] = *s;
    return true;
}

static void
take_garnish(struct arena *a, const struct yaml_node *node, struct notices *notices,
             struct swaps *out)
{
    static const char *const words_keys[] = {"words", NULL};
    struct row row = {.arena = a, .texts = a, .notices = notices, .entry = SLICE("garnish")};
    row.until = "Until then the words of the tables before this one hold.";
    const struct yaml_node *words = yaml_get(node, "words");
    for (size_t i = 0; node->kind == YAML_MAP_NODE && i < node->count; i++)
        if (row_word(yaml_key(node, i)->text, words_keys) < 0)
            row_key_unknown(&row, yaml_key(node, i), "garnish", words_keys);
    if (words == NULL || row.wrong)
        return;
    const char **list = take_list(&row, words, "words");
    if (row.wrong)
        return;
    out->garnish = list;
    uint64_t d = slice_digest(SLICE("garnish"), 0);
    for (; *list != NULL; list++)
        d = slice_digest(slice_of(*list), d);
    reads_entry_name(&out->garnish_entry, slice_string(a, SLICE("swap-garnish")));
    out->garnish_entry.digest = d;
}

void
swaps_load(struct arena *a, const char *path, const struct yaml_node *root, struct notices *notices,
           struct swaps *out)
{
    const struct yaml_node *rows = yaml_get(root, "swaps"), *garnish = yaml_get(root, "garnish");
    size_t fresh = 0;
    if (garnish != NULL)
        take_garnish(a, garnish, notices, out);
    for (size_t i = 0; rows != NULL && rows->kind == YAML_MAP_NODE && i < rows->count; i++) {
        struct row row = {.arena = a, .texts = a, .notices = notices};
        struct swap s;
        row.entry = yaml_key(rows, i)->text;
        row.until = "Until then the swap is left out.";
        if (!take_swap(&row, yaml_key(rows, i), yaml_value(rows, i), &s))
            continue;
        s.path = slice_string(a, slice_of(path));
        fresh += put(a, &s, fresh, out);
    }
}

const char *const *
swaps_garnish(const struct swaps *s, struct reads *reads)
{
    static const char *const none[] = {NULL};
    if (s->garnish == NULL)
        return none;
    reads_note(reads, &s->garnish_entry);
    return s->garnish;
}

static bool
id_lacks(const struct swap *s, const char *id, const struct larder *l, struct notices *notices)
{
    if (larder_by_id(l, slice_of(id)) != NULL)
        return false;
    notice_add_mended(notices, RULE_TABLE_ROW_WRONG, s->place, slice_of(s->id),
                      text_formatted(notices->arena, "the larder has no food of the id “%s”", id),
                      SLICE("Look the food up with dariole larder, and write its id. Until then "
                            "nothing is swapped by it."));
    return true;
}

bool
swaps_lack(const struct swap *s, const struct larder *l, struct notices *notices)
{
    bool lacks = id_lacks(s, s->use, l, notices);
    for (const char **id = s->of; *id != NULL; id++)
        lacks = id_lacks(s, *id, l, notices) || lacks;
    for (const char **id = s->not_with; *id != NULL; id++)
        lacks = id_lacks(s, *id, l, notices) || lacks;
    return lacks;
}

static const struct swap *
next_of(const struct swaps *s, struct slice food, const struct swap *after)
{
    for (size_t i = after == NULL ? 0 : (size_t)(after - s->items) + 1; i < s->count; i++)
        for (const char **id = s->items[i].of; *id != NULL; id++)
            if (slice_is(food, *id))
                return &s->items[i];
    return NULL;
}

uint64_t
swaps_ask(const struct swaps *s, struct slice key)
{
    if (slice_is(key, "swap-garnish"))
        return s->garnish_entry.digest;
    for (size_t i = 0; slice_begins(key, "swap:") && i < s->count; i++)
        if (slice_is(key, s->items[i].entry.key))
            return s->items[i].entry.digest;
    if (!slice_begins(key, "swaps:"))
        return 0;
    const struct slice food = slice_part(key, strlen("swaps:"), key.length);
    uint64_t d = 0;
    for (const struct swap *one = next_of(s, food, NULL); one != NULL; one = next_of(s, food, one))
        d = slice_digest(SLICE("swap"), d ^ one->entry.digest);
    return d;
}

const struct swap *
swaps_next(const struct swaps *s, const char *food, const struct swap *after, struct reads *reads)
{
    if (after == NULL && reads != NULL) {
        struct slice key = text_formatted(reads->arena, "swaps:%s", food);
        reads_note_question(reads, key, swaps_ask(s, key));
    }
    const struct swap *next = next_of(s, slice_of(food), after);
    if (next != NULL)
        reads_note(reads, &next->entry);
    return next;
}
