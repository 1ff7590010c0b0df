#include "judge/happening.h"

#include "read/words_listed.h"

#include <string.h>

static void
hit_widen(struct hit *h, size_t from, size_t to)
{
    if (h->from == h->to) {
        h->from = from;
        h->to = to;
        return;
    }
    h->from = from < h->from ? from : h->from;
    h->to = to > h->to ? to : h->to;
}

/* "take it off at 65 °C": what cannot be an oven's is the food's */
static bool
heat_is(const struct heat *h, const char *wanted)
{
    const enum heat_of of = h->of == HEAT_OF_UNKNOWN && h->celsius.mid < 100 ? HEAT_OF_FOOD : h->of;
    static const char *const names[] = {
        [HEAT_OF_OVEN] = "oven",      [HEAT_OF_FOOD] = "food",   [HEAT_OF_OIL] = "oil",
        [HEAT_OF_SYRUP] = "syrup",    [HEAT_OF_WATER] = "water", [HEAT_OF_ROOM] = "room",
        [HEAT_OF_UNKNOWN] = "unknown"};
    return wanted == NULL || strcmp(wanted, "any") == 0 || strcmp(wanted, names[of]) == 0;
}

static bool
hit_heat(struct passage *p, const struct caution_trigger *t, size_t from, size_t to,
         struct hit *hit)
{
    const struct heats *heats = passages_heats(p);
    for (size_t i = 0; i < heats->count; i++) {
        const struct heat *h = &heats->items[i];
        if (h->from < from || h->to > to || !heat_is(h, t->heat_of) ||
            h->celsius.mid < t->celsius.low || h->celsius.mid > t->celsius.high)
            continue;
        hit_widen(hit, h->from, h->to);
        return true;
    }
    return false;
}

static bool
part_is(enum duration_part part, const char *wanted)
{
    if (wanted != NULL && strcmp(wanted, "storage") == 0)
        return part == DURATION_STORAGE;
    if (wanted != NULL && strcmp(wanted, "spent") == 0)
        return part == DURATION_SPENT;
    return part == DURATION_SPENT || part == DURATION_STORAGE;
}

static bool
hit_duration(struct passage *p, const struct caution_trigger *t, size_t from, size_t to,
             struct hit *hit)
{
    const struct durations *durations = passages_durations(p);
    for (size_t i = 0; i < durations->count; i++) {
        const struct duration *d = &durations->items[i];
        double seconds = d->seconds.high * d->times;
        if (d->from < from || d->to > to || !part_is(d->part, t->duration_part) ||
            seconds < t->seconds.low || seconds > t->seconds.high)
            continue;
        hit_widen(hit, d->from, d->to);
        return true;
    }
    return false;
}

static bool
is_among(const char *tag, const char *const *tags)
{
    for (; *tags != NULL; tags++)
        if ((*tags)[0] == tag[0] && strcmp(*tags, tag) == 0)
            return true;
    return false;
}

bool
happening_carries(const struct ingredient *in, const char *const *tags)
{
    for (size_t o = 0; o < in->option_count; o++)
        for (size_t k = 0; k < in->options[o].count; k++) {
            const struct food *f = in->options[o].helpings[k].food;
            for (size_t i = 0; f != NULL && f->tags != NULL && f->tags[i] != NULL; i++)
                if (is_among(f->tags[i], tags))
                    return true;
        }
    return false;
}

static bool
has_all(const struct meanings *means, const struct caution_trigger *t)
{
    for (size_t i = 0; i < t->happens_count; i++)
        if (!meanings_meet(means, &t->happens[i]))
            return false;
    return true;
}

/* what the clauses so far did one of the trigger's `after`, or of its `not_after`, to */
struct done {
    struct ingredient_set after, not_after;
};

static void
note_done(struct done *done, const struct clause *c, const struct caution_trigger *t)
{
    if (c->negated)
        return;
    if (meanings_meet(&c->means, &t->after))
        ingredient_set_join(&done->after, &c->wide);
    if (meanings_meet(&c->means, &t->not_after))
        ingredient_set_join(&done->not_after, &c->wide);
}

/* whether the clause acts on what lifts the caution: vinegar in the jar, beef beside the chicken */
static bool
acts_on_exempt(const struct dish *d, const struct clause *c, const struct caution_trigger *t)
{
    for (size_t i = 0; i < d->count; i++)
        if (ingredient_set_has(&c->acted, i) &&
            (words_have(d->ingredients[i].words, t->unless_foods) ||
             (t->unless_tags != NULL && happening_carries(&d->ingredients[i], t->unless_tags))))
            return true;
    return false;
}

/* "until supper", "all winter": for as long as the trigger asks, without a number */
static bool
lasts_unnumbered(const struct cooking *words, const struct clause *c,
                 const struct caution_trigger *t)
{
    const double hours = 4 * 3600.0, weeks = 14 * 86400.0;
    return (meanings_meet(&c->means, &words->for_hours) && t->seconds.low <= hours + 1) ||
           (meanings_meet(&c->means, &words->for_weeks) && t->seconds.low <= weeks &&
            t->seconds.high > weeks);
}

static bool
acts_on_others(const struct clause *c, const struct ingredient_set *foods)
{
    struct ingredient_set both = c->acted;
    ingredient_set_join(&both, foods);
    return memcmp(&both, foods, sizeof both) != 0;
}

/* "never leave it", "no more than": the words before word `at` warn against it */
static bool
is_denied(const struct words *w, size_t from, size_t at)
{
    enum { NEAR = 9 };
    const size_t near = at > NEAR ? at - NEAR : 0;
    return words_any(w, words_list(w, WORDS_WARNINGS), near > from ? near : from, at + 1, NULL) !=
           NULL;
}

/* the clause's own words, figures and foods */
static bool
clause_fires(const struct judging *j, const struct clause *c, const struct caution_trigger *t,
             const struct ingredient_set *foods, struct hit *hit)
{
    const struct dish *d = j->dish;
    const struct words *w = c->passage->words;
    size_t at = c->from;
    const size_t from = w->items[c->from].from, to = w->items[c->end - 1].to;
    *hit = (struct hit){.passage = c->passage};
    if ((!t->anything && !ingredient_sets_meet(&c->acted, foods)) || acts_on_exempt(d, c, t) ||
        (t->only && acts_on_others(c, foods)))
        return false;
    if (t->step_words != NULL &&
        (words_any(w, t->step_words, c->from, c->end, &at) == NULL || is_denied(w, c->from, at)))
        return false;
    if (t->also_words != NULL && words_any(w, t->also_words, words_sentence_from(w, c->from),
                                           words_sentence_to(w, c->from), NULL) == NULL)
        return false;
    if ((t->has_celsius && !hit_heat(c->passage, t, from, to, hit)) ||
        (t->has_seconds && !hit_duration(c->passage, t, from, to, hit) &&
         !lasts_unnumbered(&j->tables->cooking, c, t)))
        return false;
    hit_widen(hit, from, to);
    return true;
}

/* without the link or the mark that ends the clause */
static void
trim(const struct clause *c, struct hit *hit)
{
    const struct words *w = c->passage->words;
    size_t end = c->end;
    while (end > c->from + 1 && words_one_of(w, end - 1, WORDS_CLAUSE_ENDS))
        end--;
    hit->to = w->items[end - 1].to;
}

bool
happening_may(const struct judging *j, const struct caution_trigger *t)
{
    return has_all(&j->clauses->means, t) &&
           (!t->has_after || meanings_meet(&j->clauses->means, &t->after));
}

/* whether the clause is one that the trigger asks about at all */
static bool
is_asked(const struct clause *c, const struct caution_trigger *t, bool practice)
{
    return c->end != c->from && !c->negated && !c->remark &&
           (c->passage->kind != PASSAGE_PROSE || practice) && has_all(&c->means, t) &&
           !meanings_meet(&c->means, &t->happens_not);
}

bool
happening_find(const struct judging *j, const struct caution_trigger *t, bool practice,
               const struct ingredient_set *foods, struct hit *hit)
{
    const struct clauses *all = j->clauses;
    const struct passage *passage = NULL; /* looked through once, not for each of its clauses */
    struct done done = {0};
    bool lifted = false;
    for (size_t i = 0; i < all->count; note_done(&done, &all->items[i++], t)) {
        const struct clause *c = &all->items[i];
        if (!is_asked(c, t, practice) || !clause_fires(j, c, t, foods, hit) ||
            (t->has_after && !ingredient_sets_meet(&done.after, &c->acted)) ||
            ingredient_sets_meet(&done.not_after, &c->acted))
            continue;
        if (c->passage != passage)
            lifted = words_have(c->passage->words, t->unless_words);
        passage = c->passage;
        if (lifted)
            continue;
        trim(c, hit);
        return true;
    }
    return false;
}

bool
happening_ever(const struct judging *j, const struct caution_trigger *t,
               const struct ingredient_set *foods)
{
    const struct clauses *all = j->clauses;
    for (size_t i = 0; i < all->count; i++)
        if (all->items[i].passage->kind != PASSAGE_PROSE && !all->items[i].negated &&
            !all->items[i].remark && meanings_meet(&all->items[i].means, &t->never) &&
            ingredient_sets_meet(&all->items[i].wide, foods))
            return true;
    return false;
}
