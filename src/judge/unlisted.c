#include "judge/unlisted.h"

#include <string.h>

#include "read/stem.h"
#include "tables/food_names.h"
#include "read/words_listed.h"

enum {
    WORDS_MOST = 4,  /* of a food's name */
    ASKED_MOST = 300 /* questions of one post */
};

struct asking {
    const struct judging *judging;
    struct method_foods *out;
    const struct clause *clause;
    size_t asked;
};

/* "such as", "or": nobody says that it goes in */
static bool
is_loose(const struct clause *c)
{
    const struct words *w = c->passage->words;
    return words_any(w, words_list(w, WORDS_NOT_FOR_SURE), words_sentence_from(w, c->from),
                     words_sentence_to(w, c->from), NULL) != NULL;
}

static const struct sign *
sign_at(const struct clause *c, size_t i, enum cooking_kind kind)
{
    for (size_t k = 0; k < c->sign_count; k++)
        if (c->first_sign[k].row->kind == kind && c->first_sign[k].from <= i &&
            i < c->first_sign[k].end)
            return &c->first_sign[k];
    return NULL;
}

static bool
is_row(const struct sign *s, const char *id)
{
    return s != NULL && strcmp(s->row->id, id) == 0;
}

/* water and salt, however they are called; alone also what was made of the list, or a tool */
static bool
is_granted(const struct clause *c, size_t first, size_t end)
{
    if (is_row(sign_at(c, end - 1, COOKING_LEAD), "taken-for-granted"))
        return true;
    if (end > first + 1)
        return sign_at(c, first, COOKING_TOOL) != NULL;
    return sign_at(c, first, COOKING_DISH) != NULL || sign_at(c, first, COOKING_TOOL) != NULL ||
           sign_at(c, first, COOKING_PLACE) != NULL;
}

/* "serve with crusty bread": beside the dish, not in it */
static bool
is_beside(const struct clause *c, const char *const *sides, size_t end)
{
    bool serves = false;
    for (size_t k = 0; k < c->sign_count; k++)
        serves = serves || (c->first_sign[k].done && is_row(&c->first_sign[k], "serving"));
    return serves && words_any(c->passage->words, sides, end - 1, end, NULL) != NULL;
}

/* whether the list has the food, or one of the kind that the word names: "the cheese" */
static bool
is_listed(const struct asking *q, const struct food *f, const struct words *w, size_t first,
          size_t end)
{
    const struct dish *d = q->judging->dish;
    const struct food_kinds *kinds = &q->judging->tables->cooking.kinds;
    for (size_t i = 0; i < d->count; i++)
        for (size_t o = 0; o < d->ingredients[i].option_count; o++)
            for (size_t k = 0; k < d->ingredients[i].options[o].count; k++)
                if (d->ingredients[i].options[o].helpings[k].food == f)
                    return true;
    for (size_t k = 0; k < kinds->count; k++) {
        if (end > first + 1 ||
            words_any(w, (const char *const *)kinds->items[k].words, first, end, NULL) == NULL)
            continue;
        for (size_t i = 0; i < d->count; i++)
            if (names_of_kind(&d->ingredients[i], &kinds->items[k]))
                return true;
    }
    return false;
}

static const struct food *
food_named(const struct asking *q, struct slice words)
{
    const struct judging *j = q->judging;
    if (!food_names(j->tables->larder, j->arena, words, j->reads))
        return NULL;
    const struct sought sought = {.name = words, .after = SLICE(""), .region = j->dish->region};
    return food_find(j->tables->larder, j->arena, &sought, j->reads).food;
}

/* how many words from `first` may name a food; 0 when one of them is known from the list */
static size_t
new_words(const struct asking *q, size_t first)
{
    const struct clause *c = q->clause;
    const struct words *w = c->passage->words;
    size_t end = first;
    for (; end < c->end && end < first + WORDS_MOST; end++) {
        const struct word *word = &w->items[end];
        if (word_is(word, "-") && end > first)
            continue;
        if (word->kind != WORD_LETTERS || words_one_of(w, end, WORDS_FOOD_NAME_ENDS))
            break;
        const struct stem stem = stem_of(q->judging->arena, word->folded);
        if (names_know(q->judging->names, &stem))
            return 0; /* part of something listed: "the tomato mixture" */
    }
    return end - first;
}

static bool
told_already(const struct asking *q, const struct food *f)
{
    for (size_t i = 0; i < q->out->count; i++)
        if (q->out->items[i].food == f)
            return true;
    return false;
}

/* tells the food that begins at word `first`, by the longest words that the larder knows; the word
 * behind it */
static size_t
ask(struct asking *q, size_t first)
{
    const struct clause *c = q->clause;
    const struct words *w = c->passage->words;
    for (size_t length = new_words(q, first); length > 0; length--) {
        const size_t end = first + length;
        const struct slice words =
            slice_part(c->passage->text, w->items[first].from, w->items[end - 1].to);
        if (words.length < 3 || w->items[end - 1].kind != WORD_LETTERS || is_granted(c, first, end))
            continue;
        if (q->asked++ >= ASKED_MOST)
            return end;
        const struct food *f = food_named(q, words);
        if (f == NULL)
            continue;
        if (is_listed(q, f, w, first, end) || told_already(q, f) || is_loose(c))
            return end;
        const char *const *sides = cooking_phrases(&q->judging->tables->cooking, "sides");
        const bool beside = is_beside(c, sides, end);
        *LIST_GROW(q->judging->arena, q->out) = (struct method_food){f, c, words, beside};
        notice_add(q->judging->notices, beside ? RULE_FOOD_BESIDE : RULE_FOOD_UNLISTED,
                   passages_place(c->passage, w->items[first].from, w->items[end - 1].to), words,
                   SLICE(""));
        return end;
    }
    return first;
}

/* goes through a clause: foods stand behind the verb, "with", a comma and "and"; not behind "into",
 * which says where they go */
static void
go_through(struct asking *q)
{
    const struct clause *c = q->clause;
    const struct words *w = c->passage->words;
    const size_t verb = c->verb != SIZE_MAX ? c->verb : c->from; /* one that no table knows */
    bool open = true;
    for (size_t i = verb + 1; i < c->end; i++) {
        const struct word *word = &w->items[i];
        const bool particle = i == verb + 1;
        if (words_one_of(w, i, WORDS_FOODS_OPEN))
            open = true;
        else if (!particle && words_one_of(w, i, WORDS_FOODS_CLOSE))
            open = false;
        if (!open || word->kind != WORD_LETTERS || words_one_of(w, i, WORDS_FOODS_OPEN))
            continue;
        const struct sign *lead = sign_at(c, i, COOKING_LEAD);
        if (is_row(lead, "amount"))
            continue;
        const size_t end = ask(q, i);
        const struct stem stem = stem_of(q->judging->arena, word->folded);
        if (end > i)
            i = end - 1;
        open = end == i && (stem_describes(q->judging->names->lists, &stem) || particle);
    }
}

void
unlisted_judge(const struct judging *j, struct method_foods *out)
{
    struct asking q = {.judging = j, .out = out};
    *out = (struct method_foods){0};
    for (size_t i = 0; i < j->clauses->count; i++) {
        const struct clause *c = &j->clauses->items[i];
        if (c->passage->kind != PASSAGE_STEP || c->negated || c->remark || c->conditional)
            continue;
        q.clause = c;
        go_through(&q);
    }
}

const struct dish *
unlisted_dish(struct arena *a, const struct dish *d, const struct method_foods *foods)
{
    if (foods->count == 0)
        return d;
    struct dish *all = arena_take(a, sizeof *all);
    *all = *d;
    all->ingredients = arena_take_array(a, d->count + foods->count, sizeof *all->ingredients);
    memcpy(all->ingredients, d->ingredients, d->count * sizeof *d->ingredients);
    for (size_t i = 0; i < foods->count; i++) {
        const struct method_food *f = &foods->items[i];
        if (f->beside)
            continue;
        struct ingredient *in = &all->ingredients[all->count++];
        struct written_food *written = arena_take(a, sizeof *written);
        struct helping *h = arena_take(a, sizeof *h);
        struct dish_option *option = arena_take(a, sizeof *option);
        struct words *words = arena_take(a, sizeof *words);
        written->name = f->words;
        words_read(a, NULL, f->words, words);
        *h = (struct helping){.written = written, .food = f->food};
        *option = (struct dish_option){h, 1};
        *in = (struct ingredient){
            .line = {.text = f->words}, .words = words, .options = option, .option_count = 1};
    }
    return all;
}
