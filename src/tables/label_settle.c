#include "tables/label_settle.h"

#include <math.h>
#include <string.h>

#include "read/label_list.h"
#include "tables/food_entries.h"
#include "tables/food_names.h"
#include "tables/label.h"
#include "tables/label_allergens.h"
#include "tables/label_bounds.h"
#include "tables/larder_rows.h"
#include "tables/serve_settle.h"

/* one label while it is settled */
struct settling {
    struct larder *larder;
    struct arena *arena;
    struct food *food;
    struct label *label;
    struct notices notices;
    int region;
};

/* "E 330", "INS 330" and, where the law lets it, "330" as "e330"; "" for what is no such number */
static struct slice
additive_number(struct arena *a, struct slice name)
{
    struct text t = text_new(a);
    size_t digits = 0, i = 0;
    text_add_byte(&t, 'e');
    if (slice_begins(name, "INS") || slice_begins(name, "ins"))
        i = 3;
    else if (slice_begins(name, "E") || slice_begins(name, "e"))
        i = 1;
    for (; i < name.length; i++) {
        const char c = name.at[i];
        if (c >= '0' && c <= '9')
            digits++;
        else if (c != ' ' && (digits == 0 || c < 'a' || c > 'i'))
            return SLICE("");
        if (c != ' ')
            text_add_byte(&t, c);
    }
    return digits == 3 || digits == 4 ? text_slice(&t) : SLICE("");
}

/* the food that a word of packets stands for, such as "natural flavouring"; NULL: none */
static const struct food *
find_alias(const struct settling *s, struct slice name)
{
    const struct word_lists *lists = s->larder->words;
    struct slice key = additive_number(s->arena, name);
    struct words words;
    struct text folded = text_new(s->arena);
    const struct word_value *alias;
    words_read(s->arena, lists, name, &words);
    for (size_t i = 0; i < words.count; i++)
        if (words.items[i].kind != WORD_MARK) {
            text_add_string(&folded, folded.length > 0 ? " " : "");
            text_add(&folded, words.items[i].folded);
        }
    if (key.length == 0)
        key = text_slice(&folded);
    alias = word_lists_value(lists, WORDS_LABEL_ALIASES, key);
    if (alias == NULL && slice_begins(key, "e") && key.length > 4) /* "e472e" as "e472" */
        alias = word_lists_value(lists, WORDS_LABEL_ALIASES,
                                 slice_part(key, 0, key.length - (key.at[key.length - 1] > '9')));
    return alias != NULL ? larder_by_id(s->larder, slice_of(alias->text)) : NULL;
}

static struct slice
last_word(struct slice name)
{
    size_t at = name.length;
    while (at > 0 && name.at[at - 1] != ' ')
        at--;
    return slice_part(name, at, name.length);
}

/* by its whole name, else by the word of packets that it ends in: tapioca maltodextrin */
static struct found
find(const struct settling *s, struct slice name)
{
    const struct sought sought = {.name = name, .region = s->region};
    struct found found = {.food = find_alias(s, name)};
    if (found.food == NULL && name.length > 0)
        found = food_find(s->larder, s->arena, &sought, NULL);
    if (found.food == NULL && last_word(name).length < name.length)
        found.food = find_alias(s, last_word(name));
    if (found.corrected || found.food == s->food) /* contents are not taken on a guess */
        found.food = NULL;
    return found;
}

/* whether a word says what those in the bracket behind it are: oils, flours */
static bool
is_kind(const struct settling *s, struct slice word)
{
    const struct word_lists *lists = s->larder->words;
    struct words words;
    words_read(s->arena, lists, word, &words);
    return words.count == 1 && word_lists_have(lists, WORDS_LABEL_KINDS, words.items[0].folded);
}

/* "vegetable oils (palm, coconut)" are palm oil and coconut oil; "onion (dried)" is dried onion */
static const struct food *
find_within(const struct settling *s, const struct label_part *p, const struct label_part *whole)
{
    const struct slice kind = last_word(whole->name);
    const struct food *food = NULL;
    const struct slice with_kind =
        text_formatted(s->arena, "%.*s %.*s", SLICE_ARGS(p->name), SLICE_ARGS(kind));
    if (is_kind(s, kind))
        food = find(s, with_kind).food;
    if (food == NULL)
        food = find(s, p->name).food;
    if (food == NULL)
        food = find(s, text_formatted(s->arena, "%.*s %.*s", SLICE_ARGS(p->name),
                                      SLICE_ARGS(whole->name)))
                   .food;
    return food;
}

/* "salt and pepper" becomes two, in no order */
static void
split_pair(struct settling *s, size_t at)
{
    static const char *const between[] = {" and ", " & ", " und/or ", " or ", NULL};
    struct label *l = s->label;
    for (size_t i = 0; between[i] != NULL; i++) {
        const struct slice name = l->parts[at].name;
        const size_t middle = slice_find(name, between[i], 0);
        if (middle == SIZE_MAX || l->part_count + 2 > LABEL_ITEMS_MOST)
            continue;
        const struct slice halves[] = {
            slice_trim(slice_part(name, 0, middle)),
            slice_trim(slice_part(name, middle + strlen(between[i]), name.length))};
        const struct food *foods[] = {find(s, halves[0]).food, find(s, halves[1]).food};
        if (foods[0] == NULL || foods[1] == NULL)
            continue;
        l->parts[at].any_order = true;
        for (size_t k = 0; k < 2; k++)
            l->parts[l->part_count++] = (struct label_part){.name = halves[k],
                                                            .all = halves[k],
                                                            .place = l->parts[at].place,
                                                            .parent = at + 1,
                                                            .most = 100,
                                                            .food = foods[k]};
        return;
    }
}

static void
look_up(struct settling *s)
{
    struct label *l = s->label;
    const size_t written = l->part_count;
    for (size_t i = 0; i < written; i++) {
        struct label_part *p = &l->parts[i];
        p->food =
            p->parent > 0 ? find_within(s, p, &l->parts[p->parent - 1]) : find(s, p->name).food;
        if (p->food == NULL)
            split_pair(s, i);
    }
}

/* how many in the bracket of a part, and in theirs, are known, and how many are not */
static void
count_within(const struct label *l, size_t at, size_t *known, size_t *open)
{
    for (size_t i = 0; i < l->part_count; i++) {
        if (l->parts[i].parent != at + 1)
            continue;
        size_t known_in = 0, open_in = 0;
        count_within(l, i, &known_in, &open_in);
        *known += l->parts[i].food != NULL || known_in > 0;
        *open += l->parts[i].food == NULL && (known_in == 0 || open_in > 0);
    }
}

/* A bracket whose ingredients are all known says more than the name before it; else the name, where
 * the larder has it; else the bracket with what is open in it, if anything there is known. */
static void
choose_counted(struct label *l)
{
    for (size_t i = 0; i < l->part_count; i++) {
        struct label_part *p = &l->parts[i];
        size_t known = 0, open = 0;
        count_within(l, i, &known, &open);
        for (size_t up = p->parent; up > 0; up = l->parts[up - 1].parent)
            p->passed = p->passed || l->parts[up - 1].counted;
        p->counted = !p->passed && (known + open == 0 || (known == 0 && p->name.length > 0) ||
                                    (p->food != NULL && open > 0));
    }
}

static void
tell_unknown(struct settling *s)
{
    for (size_t i = 0; i < s->label->part_count; i++) {
        const struct label_part *p = &s->label->parts[i];
        if (!p->counted || p->food != NULL)
            continue;
        const struct found found = find(s, p->name);
        struct text more = text_new(s->arena);
        for (size_t k = 0; k < 3 && found.nearest[k] != NULL; k++)
            text_addf(&more, "%s%s", k == 0 ? "; near it: " : ", ", found.nearest[k]);
        notice_add(&s->notices, RULE_LABEL_OPEN, p->place, p->name,
                   more.length > 0 ? text_slice(&more) : SLICE(""));
    }
}

/* What the packet says of itself goes into the food; carbohydrate in all, as elsewhere in the
 * larder. Where fibre is apart and not told, nobody knows how much that is at the most. */
static void
set_nutrients(struct settling *s)
{
    const struct label *l = s->label;
    for (int n = 0; n < NUTRIENTS; n++) {
        const bool apart = n == CARBOHYDRATE && l->fibre_apart;
        const struct label_amount *of = &l->nutrients[n],
                                  *fibre = apart ? &l->nutrients[FIBRE] : NULL;
        const double times = n == SODIUM_MG ? 1000 : 1;
        struct span span = {of->low, l->said[n], of->high};
        if (!of->given || figure_known(&s->food->nutrients[n]))
            continue;
        if (fibre != NULL)
            span =
                span_add(span, fibre->given ? (struct span){fibre->low, l->said[FIBRE], fibre->high}
                                            : (struct span){0, 0, 100});
        span.low = fmin(span.low, span.mid);
        span.high = fmax(span.high, span.mid);
        s->food->nutrients[n] = (struct figure){
            .span = span_scale(span, times), .source = l->source, .basis = BASIS_PUBLISHED};
    }
}

static void
settle(struct larder *larder, struct food *food, struct arena *scratch, label_told *told, void *ctx)
{
    struct settling s = {larder, scratch, food, food->label, {.arena = scratch}, -1};
    const char *region = food->label->region;
    s.region = measures_region(
        larder->measures, slice_of(region == NULL || strcmp(region, "eu") == 0 ? "uk" : region));
    look_up(&s);
    choose_counted(s.label);
    tell_unknown(&s);
    const struct label_work work = {larder, scratch, food, &s.notices};
    label_allergens_settle(&work);
    set_nutrients(&s);
    label_bounds_settle(&work);
    food_entries_build(larder->arena, food);
    if (s.notices.count > 0)
        told(ctx, food->label->path, &s.notices);
}

void
label_settle(struct larder *l, label_told *told, void *ctx)
{
    struct arena *scratch = l->labelled.count > 0 ? arena_open((size_t)1 << 18) : NULL;
    if (l->labelled.count > 0 && scratch == NULL)
        longjmp(*arena_guard(l->arena), 1);
    if (scratch != NULL)
        memcpy(*arena_guard(scratch), *arena_guard(l->arena), sizeof(jmp_buf));
    for (size_t i = 0; i < l->labelled.count; i++) {
        struct food_row *row = l->labelled.items[i];
        if (map_get(&l->by_id, slice_of(row->food.id)) == row) /* not one that gave way */
            settle(l, &row->food, scratch, told, ctx);
        arena_reset(scratch);
    }
    arena_close(scratch);
}

void
label_settle_serves(struct arena *a, const struct larder *l, const struct limits *limits,
                    label_told *told, void *ctx)
{
    for (size_t i = 0; i < l->labelled.count; i++) {
        struct food *f = &l->labelled.items[i]->food;
        const struct label_serve *serve = &f->label->tested;
        struct notices notices = {.arena = a};
        if (serve->grams <= 0)
            continue;
        const bool all = serve->phase.length == 0; /* what the strict phase lets be, all do */
        const int phase = all ? -1 : limits_phase(limits, serve->phase);
        if (all || phase >= 0) {
            serve_set(a, f, phase, serve->grams, serve->source);
            continue;
        }
        notice_add_mended(&notices, RULE_TABLE_ROW_WRONG, serve->place, slice_of(f->id),
                          text_formatted(a, "there is no phase “%.*s”", SLICE_ARGS(serve->phase)),
                          text_formatted(a, "Write %s.", limits->phases[0].id));
        told(ctx, f->label->path, &notices);
    }
}
