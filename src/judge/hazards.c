#include "judge/hazards.h"

#include <string.h>

#include "base/list.h"
#include "judge/clauses.h"

/* where a trigger fired */
struct hit {
    const struct passage *passage; /* NULL: the list or the title as a whole */
    size_t from, to;               /* bytes in its text */
    struct slice what;
    struct place place;
};

struct fired_list {
    struct fired_caution *items;
    size_t count, room;
};

static void
widen(struct hit *h, size_t from, size_t to)
{
    if (h->from == h->to) {
        h->from = from;
        h->to = to;
        return;
    }
    h->from = from < h->from ? from : h->from;
    h->to = to > h->to ? to : h->to;
}

static bool
is_among(const char *tag, const char *const *tags)
{
    for (; *tags != NULL; tags++)
        if ((*tags)[0] == tag[0] && strcmp(*tags, tag) == 0)
            return true;
    return false;
}

static bool
carries(const struct ingredient *in, const char *const *tags)
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

/* the first ingredient that the trigger's tags and words name */
static const struct ingredient *
ingredient_for(const struct dish *d, const struct caution_trigger *t)
{
    for (size_t i = 0; i < d->count; i++) {
        const struct ingredient *in = &d->ingredients[i];
        if (t->tags != NULL && !carries(in, t->tags))
            continue;
        if (t->food_words != NULL && !words_have(in->words, t->food_words))
            continue;
        if (words_have(in->words, t->food_lacks))
            continue;
        return in;
    }
    return NULL;
}

static bool
title_has(const struct judging *j, const char *const *phrases)
{
    return words_have(&j->post->title_words, phrases) ||
           words_have(&j->post->summary_words, phrases);
}

/* whether the method or the notes say it */
static bool
post_has(const struct judging *j, const char *const *phrases)
{
    const struct passages *all = &j->clauses->passages;
    for (size_t i = 0; phrases != NULL && i < all->count; i++)
        if (all->items[i].kind != PASSAGE_PROSE && words_have(all->items[i].words, phrases))
            return true;
    return false;
}

/* "never leave it", "do not keep": the sentence warns against it */
static bool
warned_against(const struct words *w, size_t from, size_t at)
{
    static const char *const nots[] = {"never",      "don't",          "not",       "avoid",
                                       "cannot",     "can't",          "shouldn't", "rather than",
                                       "instead of", "no longer than", "mustn't",   "won't",
                                       "isn't",      "without",        NULL};
    size_t near = at > 9 ? at - 9 : 0;
    return words_any(w, nots, near > from ? near : from, at + 1, NULL) != NULL;
}

static bool
heat_is(enum heat_of of, const char *wanted)
{
    static const char *const names[] = {
        [HEAT_OF_OVEN] = "oven",      [HEAT_OF_FOOD] = "food",   [HEAT_OF_OIL] = "oil",
        [HEAT_OF_SYRUP] = "syrup",    [HEAT_OF_WATER] = "water", [HEAT_OF_ROOM] = "room",
        [HEAT_OF_UNKNOWN] = "unknown"};
    return wanted == NULL || strcmp(wanted, "any") == 0 || strcmp(wanted, names[of]) == 0;
}

static bool
heat_fires(struct passage *p, const struct caution_trigger *t, size_t from, size_t to,
           struct hit *hit)
{
    const struct heats *heats = passage_heats(p);
    for (size_t i = 0; i < heats->count; i++) {
        const struct heat *h = &heats->items[i];
        if (h->from < from || h->to > to || !heat_is(h->of, t->heat_of) ||
            h->celsius.mid < t->celsius.low || h->celsius.mid > t->celsius.high)
            continue;
        widen(hit, h->from, h->to);
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
duration_fires(struct passage *p, const struct caution_trigger *t, size_t from, size_t to,
               struct hit *hit)
{
    const struct durations *durations = passage_durations(p);
    for (size_t i = 0; i < durations->count; i++) {
        const struct duration *d = &durations->items[i];
        double seconds = d->seconds.high * d->times;
        if (d->from < from || d->to > to || !part_is(d->part, t->duration_part) ||
            seconds < t->seconds.low || seconds > t->seconds.high)
            continue;
        widen(hit, d->from, d->to);
        return true;
    }
    return false;
}

/* tries what a trigger asks of words first..end (`wide` words before them may hold the also-words)
 */
static bool
words_fire(struct passage *p, const struct caution_trigger *t, bool practice, size_t wide,
           size_t first, size_t end, struct hit *hit)
{
    const struct words *w = p->words;
    size_t at = first;
    if (t->step_words != NULL) {
        const char *phrase = words_any(w, t->step_words, first, end, &at);
        if (phrase == NULL || (practice && warned_against(w, first, at)))
            return false;
        widen(hit, w->items[at].from, w->items[at + words_at(w, at, phrase) - 1].to);
    }
    if (t->also_words != NULL && words_any(w, t->also_words, wide, end, NULL) == NULL)
        return false;
    size_t from = w->items[first].from, to = w->items[end - 1].to;
    if (t->has_celsius && !heat_fires(p, t, from, to, hit))
        return false;
    if (t->has_seconds && !duration_fires(p, t, from, to, hit))
        return false;
    return !(practice && t->step_words == NULL && warned_against(w, first, end - 1));
}

static bool
passage_fires(struct passage *p, const struct caution_trigger *t, bool practice, struct hit *hit)
{
    const struct words *w = p->words;
    if (w->count == 0 || (t->step_words != NULL && !words_have(w, t->step_words)) ||
        (t->has_celsius && passage_heats(p)->count == 0) ||
        (t->has_seconds && passage_durations(p)->count == 0) || words_have(w, t->unless_words))
        return false;
    *hit = (struct hit){.passage = p};
    if (!practice)
        return words_fire(p, t, false, 0, 0, w->count, hit);
    size_t before = 0;
    for (size_t i = 0, to; i < w->count; before = i, i = to) {
        to = words_sentence_to(w, i);
        *hit = (struct hit){.passage = p};
        if (words_fire(p, t, true, before, i, to, hit))
            return true;
    }
    return false;
}

/* what a trigger without a step asks of the post as a whole */
static bool
post_fires(const struct judging *j, const struct caution_trigger *t, const struct ingredient *in,
           struct hit *hit)
{
    const struct front_value *title = &j->post->front.title;
    hit->what = in != NULL ? in->line.text : title->text;
    hit->place = in == NULL              ? title->place
                 : in->line.node != NULL ? in->line.node->place
                                         : (struct place){0};
    return !post_has(j, t->post_lacks);
}

static bool
trigger_fires(const struct judging *j, const struct caution_trigger *t, bool practice,
              struct hit *hit)
{
    const struct ingredient *in = NULL;
    *hit = (struct hit){0};
    if (((t->tags != NULL || t->food_words != NULL) && (in = ingredient_for(j->dish, t)) == NULL) ||
        (t->title_words != NULL && !title_has(j, t->title_words)))
        return false;
    if (t->step_words == NULL && t->also_words == NULL && !t->has_celsius && !t->has_seconds)
        return post_fires(j, t, in, hit);
    for (size_t i = 0; i < j->clauses->passages.count; i++) {
        struct passage *one = &j->clauses->passages.items[i];
        if ((one->kind == PASSAGE_PROSE && !practice) || !passage_fires(one, t, practice, hit))
            continue;
        if (post_has(j, t->post_lacks))
            return false;
        hit->what = slice_part(one->text, hit->from, hit->to);
        hit->place = passage_place(one, hit->from, hit->to);
        return true;
    }
    return false;
}

static void
report(const struct judging *j, const struct caution *c, const struct hit *hit)
{
    enum rule rule = c->level != NULL && strcmp(c->level, "error") == 0  ? RULE_SAFETY_DANGER
                     : c->level != NULL && strcmp(c->level, "note") == 0 ? RULE_SAFETY_NOTE
                                                                         : RULE_SAFETY_PRACTICE;
    struct text more = text_new(j->arena);
    text_add_string(&more, c->finding != NULL ? c->finding : c->words);
    if (c->mend != NULL && c->mend[0] != '\0')
        text_addf(&more, "; %s", c->mend);
    notice_add(j->notices, rule, hit->place, hit->what, text_slice(&more));
}

static void
note_foods(const struct dish *d, struct reads *reads)
{
    for (size_t i = 0; i < d->count; i++) {
        const struct ingredient *in = &d->ingredients[i];
        for (size_t o = 0; o < in->option_count; o++)
            for (size_t k = 0; k < in->options[o].count; k++)
                if (in->options[o].helpings[k].food != NULL)
                    reads_note(reads, &in->options[o].helpings[k].food->identity);
    }
}

/* the first of a caution's triggers that fires */
static bool
caution_fires(const struct judging *j, const struct caution *c, struct hit *hit)
{
    for (size_t k = 0; k < c->trigger_count; k++)
        if (trigger_fires(j, &c->triggers[k], c->kind == CAUTION_PRACTICE, hit))
            return true;
    return false;
}

void
hazards_judge(const struct judging *j, struct hazards *out)
{
    const struct tables *t = j->tables;
    struct fired_list fired = {0};
    note_foods(j->dish, j->reads);
    for (size_t i = 0; i < t->cautions.count; i++) {
        const struct caution *c = &t->cautions.items[i];
        struct hit hit;
        reads_note(j->reads, &c->trigger_entry);
        if (!caution_fires(j, c, &hit))
            continue;
        reads_note(j->reads, &c->words_entry);
        if (c->kind == CAUTION_PRACTICE)
            report(j, c, &hit);
        bool in_step = hit.passage != NULL && hit.passage->kind == PASSAGE_STEP;
        *LIST_GROW(j->arena, &fired) = (struct fired_caution){
            c, in_step ? hit.passage->part : 0, in_step ? hit.passage->number : SIZE_MAX};
    }
    *out = (struct hazards){fired.items, fired.count};
}
