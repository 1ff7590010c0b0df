#include "tables/words.h"

#include <string.h>

#include "base/list.h"
#include "read/yaml_value.h"
#include "tables/row.h"

/* the number of a word in its list, which is added when it is new */
static size_t
number_of(struct arena *a, struct word_list *l, struct slice word)
{
    const size_t known = (size_t)(uintptr_t)map_get(&l->numbers, word);
    if (known > 0)
        return known - 1;
    if (l->count + 1 >= l->room) {
        const size_t room = l->room * 2 + 16;
        l->words = arena_regrow(a, l->words, l->room * sizeof *l->words, room * sizeof *l->words);
        if (l->values != NULL)
            l->values =
                arena_regrow(a, l->values, l->room * sizeof *l->values, room * sizeof *l->values);
        l->room = room;
    }
    l->words[l->count] = slice_string(a, word);
    map_put(&l->numbers, slice_of(l->words[l->count]), (void *)(uintptr_t)(l->count + 1));
    return l->count++;
}

/* a word as texts have it: lower case, single spaces */
static bool
take_word(struct row *row, const struct yaml_node *node)
{
    if (!row_text(row, node, "words"))
        return false;
    const struct slice s = node->text;
    for (size_t i = 0; i < s.length; i++)
        if ((s.at[i] >= 'A' && s.at[i] <= 'Z') ||
            (s.at[i] == ' ' && (i == 0 || i + 1 == s.length || s.at[i + 1] == ' ')))
            return row_wrong(row, node, "Write it in lower case, with single spaces.",
                             "“%.*s” is a word that no text has", SLICE_ARGS(s));
    return true;
}

static void
take_plain(struct row *row, const struct yaml_node *words, struct word_list *out)
{
    if (words->kind != YAML_LIST_NODE) {
        row_wants(row, words, "words", "a list of words", "them as [chopped, diced]");
        return;
    }
    for (size_t i = 0; i < words->count; i++)
        if (take_word(row, words->items[i]))
            number_of(row->texts, out, words->items[i]->text);
}

/* "2", "0.75", "2/3" */
static bool
read_number(const struct yaml_node *node, struct slice text, double *out)
{
    const size_t over = slice_find_byte(text, '/', 0);
    struct yaml_node top = *node, bottom = *node;
    double divisor = 1;
    top.text = slice_part(text, 0, over);
    if (over != SIZE_MAX)
        bottom.text = slice_part(text, over + 1, text.length);
    if (!yaml_number(&top, out) || (over != SIZE_MAX && !yaml_number(&bottom, &divisor)))
        return false;
    *out /= divisor;
    return divisor > 0;
}

/* "2", "2 to 5" */
static bool
take_range(struct row *row, const struct yaml_node *node, struct span *out)
{
    const size_t to = slice_find(node->text, " to ", 0);
    double low, high;
    if (!read_number(node, slice_part(node->text, 0, to), &low) ||
        !read_number(node, slice_part(node->text, to == SIZE_MAX ? 0 : to + 4, node->text.length),
                     &high) ||
        high < low)
        return row_wants(row, node, "words", "a number", "it as 2, 2/3 or 2 to 5");
    *out = span_between(low, high);
    return true;
}

static bool
take_value(struct row *row, const struct yaml_node *node, const char *const *kinds,
           struct word_value *out)
{
    *out = (struct word_value){.kind = -1};
    if (!row_text(row, node, "words") ||
        (kinds == word_lists_range && !take_range(row, node, &out->range)))
        return false;
    if (kinds[0] != NULL && (out->kind = row_word(node->text, kinds)) < 0)
        return row_word_unknown(row, node, "words", "kind of word in this list", kinds);
    out->text = slice_string(row->texts, node->text);
    return true;
}

/* words with what stands behind each */
static void
take_valued(struct row *row, const struct yaml_node *words, const char *const *kinds,
            struct word_list *out)
{
    struct word_value value;
    if (words->kind != YAML_MAP_NODE) {
        row_wants(row, words, "words", "a mapping of words", "each with what it is behind a colon");
        return;
    }
    for (size_t i = 0; i < words->count; i++)
        if (take_word(row, yaml_key(words, i)) &&
            take_value(row, yaml_value(words, i), kinds, &value)) {
            const size_t number = number_of(row->texts, out, yaml_key(words, i)->text);
            out->values[number] = value;
        }
}

static void
take_list(struct row *row, const struct yaml_node *key, const struct yaml_node *map, int list,
          struct word_list *out)
{
    static const char *const keys[] = {"what", "words", NULL};
    const struct yaml_node *words = yaml_get(map, "words");
    const char *const *kinds = word_lists_kinds(list);
    if (!row_map(row, map, "the list", "it as {words: [...]}"))
        return;
    for (size_t i = 0; i < map->count; i++)
        if (row_word(yaml_key(map, i)->text, keys) < 0)
            row_key_unknown(row, yaml_key(map, i), "a list of words", keys);
    if (words == NULL)
        row_wrong(row, key, "Add words:.", "the list has no words");
    else if (kinds == NULL)
        take_plain(row, words, out);
    else
        take_valued(row, words, kinds, out);
}

void
words_load(struct arena *a, const struct yaml_node *root, struct notices *notices,
           struct word_lists *out)
{
    const char *known[WORD_LISTS + 1];
    const struct yaml_node *lists = yaml_get(root, "lists");
    struct row row = {.arena = a, .texts = a, .notices = notices};
    row.until = "Until then it is left out.";
    for (int i = 0; i < WORD_LISTS; i++)
        known[i] = word_lists_name(i);
    known[WORD_LISTS] = NULL;
    for (size_t i = 0; lists != NULL && lists->kind == YAML_MAP_NODE && i < lists->count; i++) {
        const struct yaml_node *key = yaml_key(lists, i);
        const int list = row_word(key->text, known);
        row.entry = key->text;
        if (list < 0)
            row_key_unknown(&row, key, "the lists of words", known);
        else
            take_list(&row, key, yaml_value(lists, i), list, &out->lists[list]);
    }
}

void
words_open(struct arena *a, struct word_lists *out)
{
    for (int i = 0; i < WORD_LISTS; i++) {
        struct word_list *l = &out->lists[i];
        l->room = 16;
        l->words = arena_take_array(a, l->room, sizeof *l->words);
        if (word_lists_kinds(i) != NULL)
            l->values = arena_take_array(a, l->room, sizeof *l->values);
        l->numbers = map_new(a);
    }
}

void
words_close(struct word_lists *w)
{
    reads_entry_name(&w->entry, "words");
    w->entry.digest = slice_digest(SLICE("words"), WORD_LISTS);
    for (int i = 0; i < WORD_LISTS; i++)
        for (size_t k = 0; k < w->lists[i].count; k++) {
            const struct word_list *l = &w->lists[i];
            w->entry.digest = slice_digest(slice_of(l->words[k]), w->entry.digest + (uint64_t)i);
            if (l->values != NULL)
                w->entry.digest = slice_digest(slice_of(l->values[k].text), w->entry.digest);
        }
}
