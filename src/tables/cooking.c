#include "tables/cooking.h"

#include <stdio.h>
#include <string.h>

#include "base/list.h"
#include "read/yaml_value.h"
#include "tables/row_phrases.h"

enum { GAP_MOST = 9, WORD_BYTES_MOST = 40 };

static const char *const kind_words[] = {
    [COOKING_ACTION] = "action", [COOKING_PLACE] = "place", [COOKING_STATE] = "state",
    [COOKING_WHO] = "who",       [COOKING_TOOL] = "tool",   [COOKING_DISH] = "dish",
    [COOKING_TURN] = "turn",     [COOKING_LEAD] = "lead",   [COOKING_PROMISE] = "promise",
    [COOKING_KINDS] = NULL};

const char *const *
cooking_meanings(const struct cooking *c)
{
    static const char *const none[] = {NULL};
    return c->meanings != NULL ? (const char *const *)c->meanings : none;
}

int
cooking_meaning(const struct cooking *c, struct slice name)
{
    for (size_t i = 0; i < c->meaning_count; i++)
        if (slice_is(name, c->meanings[i]))
            return (int)i;
    return -1;
}

/* the number of a meaning, which may be new; -1: there are too many */
static int
meaning_of(struct arena *a, struct cooking *c, struct slice name)
{
    int number = cooking_meaning(c, name);
    if (c->meanings == NULL)
        c->meanings = arena_take_array(a, MEANINGS_MOST + 1, sizeof *c->meanings);
    if (number >= 0 || c->meaning_count == MEANINGS_MOST)
        return number;
    c->meanings[c->meaning_count] = slice_string(a, name);
    return (int)c->meaning_count++;
}

static void
take_means(struct row *row, const struct yaml_node *list, struct cooking *c, struct meanings *out)
{
    if (list->kind != YAML_LIST_NODE) {
        row_wants(row, list, "means", "a list of meanings", "it as [heat, wet]");
        return;
    }
    for (size_t i = 0; i < list->count; i++) {
        if (!row_text(row, list->items[i], "means"))
            continue;
        int number = cooking_meaning(c, list->items[i]->text);
        if (number >= 0)
            meanings_put(out, number);
        else
            row_word_unknown(row, list->items[i], "means", "meaning", cooking_meanings(c));
    }
}

static void
take_phrases(struct row *row, const struct yaml_node *list, struct cooking_row *out)
{
    if (list->kind != YAML_LIST_NODE || list->count == 0)
        row_wants(row, list, "words", "a list of words and phrases", "it as [chill, refrigerate]");
    else
        out->phrases = row_phrases(row, list, "words");
}

static void
take_key(struct row *row, const struct yaml_node *k, const struct yaml_node *v, struct cooking *c,
         struct cooking_row *out)
{
    static const char *const keys[] = {"kind", "means", "words", NULL};
    int kind = -1;
    if (slice_is(k->text, "kind") && (kind = row_word(v->text, kind_words)) < 0)
        row_word_unknown(row, v, "kind", "kind of word", kind_words);
    else if (slice_is(k->text, "kind"))
        out->kind = (enum cooking_kind)kind;
    else if (slice_is(k->text, "means"))
        take_means(row, v, c, &out->means);
    else if (slice_is(k->text, "words"))
        take_phrases(row, v, out);
    else
        row_key_unknown(row, k, "a row of words", keys);
}

static void
take_row(struct row *row, const struct yaml_node *key, const struct yaml_node *map,
         struct cooking *c)
{
    struct cooking_row one = {.kind = COOKING_KINDS};
    int number = meaning_of(row->texts, c, key->text);
    row->entry = key->text;
    row->wrong = false;
    if (!row_map(row, map, "the row", "its kind and words as a mapping"))
        return;
    for (size_t i = 0; i < map->count; i++)
        take_key(row, yaml_key(map, i), yaml_value(map, i), c, &one);
    if (!row->wrong && one.kind == COOKING_KINDS)
        row_wrong(row, key, "Add kind:.", "the row has no kind");
    if (!row->wrong && one.phrases == NULL)
        row_wrong(row, key, "Add words:.", "the row has no words");
    if (!row->wrong && number < 0)
        row_wrong(row, key, "Join two of them.", "there are more than %d meanings", MEANINGS_MOST);
    if (row->wrong)
        return;
    one.id = c->meanings[number];
    meanings_put(&one.means, number);
    for (size_t i = 0; i < c->rows.count; i++)
        if (strcmp(c->rows.items[i].id, one.id) == 0) {
            c->rows.items[i] = one;
            return;
        }
    *LIST_GROW(row->texts, &c->rows) = one;
}

static void
take_irregular(struct row *row, const struct yaml_node *map, struct cooking *c)
{
    for (size_t i = 0; i < map->count; i++) {
        const struct yaml_node *k = yaml_key(map, i), *v = yaml_value(map, i);
        row->entry = k->text;
        if (v->kind != YAML_LIST_NODE)
            row_wants(row, v, "the verb", "a list of forms", "it as [kept]");
        for (size_t n = 0; v->kind == YAML_LIST_NODE && n < v->count; n++)
            if (row_text(row, v->items[n], "the verb"))
                *LIST_GROW(row->texts, &c->irregular) = (struct irregular_form){
                    slice_string(row->texts, k->text), slice_string(row->texts, v->items[n]->text)};
    }
}

void
cooking_load(struct arena *a, const struct yaml_node *root, struct notices *notices,
             struct cooking *out)
{
    struct row row = {.arena = a, .texts = a, .notices = notices};
    const struct yaml_node *meanings = yaml_get(root, "meanings"), *rows = yaml_get(root, "words"),
                           *irregular = yaml_get(root, "irregular");
    row.until = "Until then the row is left out.";
    for (size_t i = 0; meanings != NULL && i < meanings->count; i++)
        meaning_of(a, out, yaml_key(meanings, i)->text);
    for (size_t i = 0; rows != NULL && i < rows->count; i++)
        meaning_of(a, out, yaml_key(rows, i)->text); /* rows may name those behind them */
    for (size_t i = 0; rows != NULL && i < rows->count; i++)
        take_row(&row, yaml_key(rows, i), yaml_value(rows, i), out);
    if (irregular != NULL)
        take_irregular(&row, irregular, out);
    if (yaml_get(root, "kinds") != NULL)
        food_kinds_load(a, yaml_get(root, "kinds"), notices, &out->kinds);
}

static void
put_phrase(struct arena *a, struct cooking *c, struct slice first, const char *const *parts,
           size_t row)
{
    struct cooking_phrase *p = arena_take(a, sizeof *p);
    const char *text = slice_string(a, first);
    *p = (struct cooking_phrase){.parts = parts,
                                 .next = map_get(&c->firsts, first),
                                 .row = (uint32_t)row,
                                 .second = parts[0] != NULL ? parts[0][0] : '\0'};
    map_put(&c->firsts, slice_of(text), p);
}

static bool
vowel(char c)
{
    return c == 'a' || c == 'e' || c == 'i' || c == 'o' || c == 'u';
}

static void
put_form(struct arena *a, struct cooking *c, const struct cooking_phrase *p, struct slice stem,
         const char *ending)
{
    char form[WORD_BYTES_MOST + 8];
    int n = snprintf(form, sizeof form, "%.*s%s", SLICE_ARGS(stem), ending);
    put_phrase(a, c, (struct slice){form, (size_t)n}, p->parts, p->row);
}

/* stir, stirs, stirred, stirring; bake, bakes, baked, baking; fry, fries, fried, frying */
static void
put_forms(struct arena *a, struct cooking *c, struct slice verb, const struct cooking_phrase *p)
{
    const size_t n = verb.length;
    const char last = verb.at[n - 1];
    const struct slice stem = slice_part(verb, 0, n - 1);
    const bool e = last == 'e', y = last == 'y' && n > 1 && !vowel(verb.at[n - 2]);
    const bool hisses = last == 's' || last == 'x' || last == 'z' || last == 'h' || last == 'o';
    put_form(a, c, p, verb, "");
    put_form(a, c, p, y ? stem : verb, y ? "ies" : hisses ? "es" : "s");
    put_form(a, c, p, y || e ? stem : verb, y ? "ied" : "ed");
    put_form(a, c, p, e ? stem : verb, "ing");
    if (n > 2 && !vowel(last) && last != 'y' && last != 'w' && vowel(verb.at[n - 2]) &&
        !vowel(verb.at[n - 3])) {
        put_form(a, c, p, verb, (char[]){last, 'e', 'd', '\0'});
        put_form(a, c, p, verb, (char[]){last, 'i', 'n', 'g', '\0'});
    }
    for (size_t i = 0; i < c->irregular.count; i++)
        if (slice_is(verb, c->irregular.items[i].verb))
            put_phrase(a, c, slice_of(c->irregular.items[i].form), p->parts, p->row);
}

/* "in ~ jars" is "in" and, behind a gap, "jars"; what begins with a gap has an empty first part */
static const char *const *
parts_of(struct arena *a, struct slice rest)
{
    const char **parts = arena_take_array(a, rest.length / 2 + 3, sizeof *parts);
    size_t count = 0;
    for (size_t at = 0; at < rest.length;) {
        size_t end = slice_find(rest, " ~", at);
        end = end == SIZE_MAX ? rest.length : end;
        parts[count++] = slice_string(a, slice_trim(slice_part(rest, at, end)));
        at = end + (end < rest.length ? 2 : 0);
    }
    return parts;
}

static void
name_meaning(const struct cooking *c, struct slice name, struct meanings *out)
{
    const int number = cooking_meaning(c, name);
    if (number >= 0)
        meanings_put(out, number);
}

void
cooking_close(struct arena *a, struct cooking *c)
{
    uint64_t d = slice_digest(SLICE("cooking"), c->rows.count ^ c->kinds.digest);
    name_meaning(c, SLICE("food-word"), &c->food_words);
    name_meaning(c, SLICE("for-hours"), &c->for_hours);
    name_meaning(c, SLICE("for-weeks"), &c->for_weeks);
    c->firsts = map_new(a);
    for (size_t r = 0; r < c->rows.count; r++) {
        const struct cooking_row *row = &c->rows.items[r];
        d = slice_digest(slice_of(row->id), d ^ row->kind);
        for (int i = 0; i < MEANINGS_MOST / 64; i++)
            d = (d ^ row->means.bits[i]) * UINT64_C(0x9e3779b97f4a7c15);
        for (const char **text = row->phrases; *text != NULL; text++) {
            if (row->kind == COOKING_PROMISE) {
                d = slice_digest(slice_of(*text), d);
                continue;
            }
            const struct slice all = slice_of(*text);
            size_t end = slice_find_byte(all, ' ', 0);
            end = end == SIZE_MAX ? all.length : end;
            const struct slice first = slice_part(all, 0, end);
            const struct cooking_phrase p = {parts_of(a, slice_part(all, end, all.length)), NULL,
                                             (uint32_t)r, '\0'};
            d = slice_digest(all, d);
            if (row->kind == COOKING_ACTION && first.length < WORD_BYTES_MOST)
                put_forms(a, c, first, &p);
            else
                put_phrase(a, c, first, p.parts, r);
            if ((row->kind == COOKING_DISH || row->kind == COOKING_TOOL) && end == all.length &&
                first.length < WORD_BYTES_MOST && !slice_ends(first, "s"))
                put_form(a, c, &p, first, "s");
        }
    }
    for (size_t i = 0; i < c->irregular.count; i++)
        d = slice_digest(slice_of(c->irregular.items[i].form), d);
    c->firsts = map_compact(a, &c->firsts);
    c->kind_words = map_new(a);
    for (size_t i = c->kinds.count; i > 0; i--)
        for (const char **word = c->kinds.items[i - 1].words; *word != NULL; word++)
            map_put(&c->kind_words, slice_of(*word), &c->kinds.items[i - 1]);
    c->kind_words = map_compact(a, &c->kind_words);
    reads_entry_name(&c->entry, "cooking");
    c->entry.digest = d;
}

/* the word behind a part of a phrase that stands in words i..i + gap of a sentence; 0: it does not
 */
static size_t
part_at(const struct words *w, size_t i, const char *part, size_t gap)
{
    const uint32_t sentence = w->items[i - 1].sentence;
    for (size_t k = i; k < w->count && k <= i + gap && w->items[k].sentence == sentence; k++) {
        const bool hyphen = word_is(&w->items[k], "-");
        const size_t n = words_at(w, k + (hyphen && gap == 0), part);
        if (n > 0)
            return k + (hyphen && gap == 0) + n;
        if (w->items[k].kind == WORD_MARK && !hyphen)
            return 0;
    }
    return 0;
}

/* the word behind a phrase whose first word stands before word i; 0: it does not go on there */
static size_t
rest_at(const struct words *w, size_t i, const char *const *parts)
{
    for (size_t k = 0; i > 0 && parts[k] != NULL; k++)
        if (parts[k][0] != '\0')
            i = part_at(w, i, parts[k], k > 0 ? GAP_MOST : 0);
    return i;
}

const char *const *
cooking_phrases(const struct cooking *c, const char *id)
{
    static const char *const none[] = {NULL};
    for (size_t i = 0; i < c->rows.count; i++)
        if (strcmp(c->rows.items[i].id, id) == 0)
            return (const char *const *)c->rows.items[i].phrases;
    return none;
}

/* the longest phrase of each kind that begins at word i */
static bool
phrases_at(const struct cooking *c, const struct words *w, size_t i,
           struct sign found[COOKING_KINDS])
{
    bool any = false;
    const size_t behind = i + 1 + (i + 1 < w->count && word_is(&w->items[i + 1], "-"));
    const char next = behind < w->count ? w->items[behind].folded.at[0] : '\0';
    for (const struct cooking_phrase *p = map_get(&c->firsts, w->items[i].folded); p != NULL;
         p = p->next) {
        const struct cooking_row *row = &c->rows.items[p->row];
        if (p->second != '\0' && p->second != next)
            continue;
        const size_t end = rest_at(w, i + 1, p->parts);
        struct sign *best = &found[row->kind];
        if (end == 0 ||
            (best->row != NULL && (end < best->end || (end == best->end && row > best->row))))
            continue;
        *best = (struct sign){.row = row,
                              .gapped = p->parts[0] != NULL && p->parts[1] != NULL,
                              .from = (uint32_t)i,
                              .end = (uint32_t)end};
        any = true;
    }
    return any;
}

void
cooking_read(struct arena *a, const struct cooking *c, const struct words *w, struct signs *out)
{
    uint32_t solid = 0;       /* the end of what was read without a gap */
    struct sign action = {0}; /* the last; "warm" of "keep it warm" does nothing by itself */
    *out = (struct signs){0};
    for (size_t i = 0; i < w->count; i++) {
        struct sign found[COOKING_KINDS] = {{0}};
        if (!phrases_at(c, w, i, found))
            continue;
        uint32_t longest = 0;
        for (int k = COOKING_ACTION + 1; k < COOKING_LEAD; k++)
            longest = found[k].row != NULL && found[k].end > longest ? found[k].end : longest;
        for (int k = 0; k < COOKING_KINDS; k++) {
            /* "boiling water" is no boiling, "roasting tin" no roast */
            const bool within = found[k].row == NULL ||
                                (found[k].end <= solid && k != COOKING_LEAD) ||
                                (k != COOKING_LEAD && found[k].end < longest);
            const bool said =
                k == COOKING_ACTION && found[k].row != NULL &&
                (found[k].end == action.end || (found[k].end < action.end && !action.gapped));
            if (within || said)
                continue;
            *LIST_GROW(a, out) = found[k];
            action = k == COOKING_ACTION ? found[k] : action;
        }
        solid = longest > solid ? longest : solid;
    }
}
