#include "judge/claims_said.h"

#include <string.h>

#include "judge/claim_words.h"
#include "judge/contents.h"
#include "judge/promise.h"
#include "read/words_listed.h"

/* one text that may claim something */
struct said {
    const struct judging *judging;
    const struct dish *dish;
    const struct claims *claimed;
    const struct words *words;
    struct slice text;
    const struct front_value *value; /* title or summary; NULL: prose */
    const struct passage *passage;
};

/* "not vegan", "for a vegan version", "if you are vegan": no claim of this dish as it is */
static bool
is_loose(const struct words *w, size_t at)
{
    return (at > 0 && words_one_of(w, at - 1, WORDS_NO_CLAIM_BEHIND)) ||
           words_any(w, words_list(w, WORDS_NO_CLAIM_WITH), words_sentence_from(w, at),
                     words_sentence_to(w, at), NULL) != NULL;
}

/* "this vegan loaf", "it is vegan": of the dish, where "vegan butter" is of a food */
static bool
is_of_the_dish(const struct said *s, size_t end)
{
    const struct words *w = s->words;
    const struct cooking *c = &s->judging->tables->cooking;
    if (s->value != NULL || end >= w->count)
        return true;
    const struct word *next = &w->items[end];
    if (next->kind == WORD_MARK || words_one_of(w, end, WORDS_CLAIM_ENDS))
        return true;
    for (size_t i = 0; i < s->judging->post->title_words.count; i++)
        if (slice_equal(s->judging->post->title_words.items[i].folded, next->folded))
            return true;
    return words_any(w, cooking_phrases(c, "made-dish"), end, end + 2, NULL) != NULL ||
           words_any(w, cooking_phrases(c, "promise-meals"), end, end + 2, NULL) != NULL;
}

static bool
is_claimed(const struct claims *claimed, const char *id)
{
    for (size_t i = 0; i < claimed->count; i++)
        if (claimed->items[i].id != NULL && strcmp(claimed->items[i].id, id) == 0)
            return true;
    return false;
}

static struct slice
lines_of(const struct said *s, const struct culprits *list)
{
    struct text t = text_new(s->judging->arena);
    for (size_t i = 0; i < list->count && i < 3; i++)
        text_addf(&t, "%s“%.*s”", i > 0 ? ", " : "",
                  SLICE_ARGS(s->dish->ingredients[list->items[i]].line.text));
    return text_slice(&t);
}

static void
hold(const struct said *s, const struct claim_meaning *m, size_t at, size_t end)
{
    const struct judging *j = s->judging;
    const size_t from = s->words->items[at].from, to = s->words->items[end - 1].to;
    struct contents k;
    if (m->kind == CLAIM_DIET)
        contents_of_diet(j->arena, s->dish, m->diet, j->reads, &k);
    else
        contents_of_allergens(j->arena, s->dish, m->allergens, j->reads, &k);
    if (!k.breaks && !k.on_choice)
        return;
    notice_add(j->notices, k.breaks ? RULE_CLAIM_FALSE : RULE_CLAIM_ON_CHOICE,
               s->value != NULL ? promise_place(s->value, from, to)
                                : passages_place(s->passage, from, to),
               slice_part(s->text, from, to), lines_of(s, k.breaks ? &k.breaking : &k.choosing));
}

static void
judge_text(const struct said *s)
{
    enum { PHRASE_LEAST = 3 }; /* letters: "gf" is no word of prose */
    const struct word_list *phrases = word_lists_get(s->words->lists, WORDS_CLAIMS);
    const char *told = NULL;
    for (size_t k = 0; k < phrases->count; k++) {
        const char *phrase = phrases->words[k];
        const size_t at = words_find(s->words, phrase, 0, s->words->count);
        struct claim_meaning m;
        if (at == SIZE_MAX || strlen(phrase) < PHRASE_LEAST)
            continue;
        claim_words_row(s->words->lists, k, &m);
        if ((m.kind != CLAIM_DIET && m.kind != CLAIM_ABSENT) || is_claimed(s->claimed, m.id) ||
            (told != NULL && strcmp(told, m.id) == 0) || is_loose(s->words, at))
            continue;
        const size_t end = at + words_at(s->words, at, phrase);
        if (!is_of_the_dish(s, end))
            continue;
        hold(s, &m, at, end);
        told = m.id;
    }
}

void
claims_said_judge(const struct judging *j, const struct dish *dish, const struct claims *claimed)
{
    const struct front_matter *f = &j->post->front;
    const struct passages *all = &j->clauses->passages;
    struct said s = {.judging = j, .dish = dish, .claimed = claimed};
    s.value = &f->title;
    s.words = &j->post->title_words;
    s.text = f->title.text;
    judge_text(&s);
    s.value = &f->summary;
    s.words = &j->post->summary_words;
    s.text = f->summary.text;
    judge_text(&s);
    s.value = NULL;
    for (size_t i = 0; i < all->count; i++) {
        s.passage = &all->items[i];
        s.words = s.passage->words;
        s.text = s.passage->text;
        if (s.passage->kind == PASSAGE_PROSE)
            judge_text(&s);
    }
}
