#include "judge/hazards.h"

#include <string.h>

#include "base/list.h"
#include "judge/happening.h"

struct fired_list {
    struct fired_caution *items;
    size_t count, room;
};

static bool
is_of_class(const struct ingredient *in, const struct caution_trigger *t)
{
    for (size_t o = 0; o < in->option_count; o++)
        for (size_t k = 0; k < in->options[o].count; k++) {
            const struct food *f = in->options[o].helpings[k].food;
            if (f != NULL && (t->classes >> f->food_class & 1) != 0)
                return true;
        }
    return false;
}

static bool
is_id_among(const char *id, const char *const *ids)
{
    while (*ids != NULL && strcmp(*ids, id) != 0)
        ids++;
    return *ids != NULL;
}

/* what the larder does not know, "turkey crown", by the words of a kind that is one of a tag alone
 */
static bool
is_called_so(const struct food_kinds *kinds, const struct ingredient *in,
             const struct caution_trigger *t)
{
    if (in->option_count == 0 || in->options[0].count == 0 ||
        in->options[0].helpings[0].food != NULL)
        return false;
    for (size_t k = 0; k < kinds->count; k++) {
        const struct food_kind *kind = &kinds->items[k];
        if (kind->tags == NULL || kind->tags[0] == NULL || kind->tags[1] != NULL ||
            !is_id_among(kind->tags[0], (const char *const *)t->tags))
            continue;
        if (words_have(in->words, (const char *const *)kind->line))
            return true;
    }
    return false;
}

/* by a tag or class; all where the trigger asks for neither */
static bool
is_of_kind(const struct judging *j, const struct ingredient *in, const struct caution_trigger *t)
{
    return (t->tags == NULL && t->classes == 0) ||
           (t->tags != NULL &&
            (happening_carries(in, t->tags) || is_called_so(&j->tables->cooking.kinds, in, t))) ||
           is_of_class(in, t);
}

/* g of all lines with these words, at the middle */
static double
grams_of(const struct dish *d, const char *const *words)
{
    double sum = 0;
    for (size_t i = 0; i < d->count; i++)
        if (words_have(d->ingredients[i].words, words) && d->ingredients[i].option_count > 0 &&
            d->ingredients[i].options[0].count > 0)
            sum += d->ingredients[i].options[0].helpings[0].weighing.grams.mid;
    return sum;
}

/* whether what the trigger wants with it is there, in the dish or in one portion; a dish whose
 * portions nobody tells is taken for one */
static bool
has_so_much(const struct dish *d, const struct caution_trigger *t)
{
    const double portions = t->each && d->portions_known ? d->portions.mid : 1;
    return grams_of(d, t->with) >= t->with_grams.low * portions;
}

/* the ingredients that the trigger's tags and words name; all where it names none. The first of
 * them, or NULL. */
static const struct ingredient *
ingredients_for(const struct judging *j, const struct caution_trigger *t,
                struct ingredient_set *out)
{
    const struct dish *d = j->dish;
    const struct ingredient *first = NULL;
    *out = (struct ingredient_set){{0}};
    for (size_t i = d->count; i > 0; i--) {
        const struct ingredient *in = &d->ingredients[i - 1];
        if (!is_of_kind(j, in, t) ||
            (t->food_words != NULL && !words_have(in->words, t->food_words)) ||
            words_have(in->words, t->food_lacks))
            continue;
        ingredient_set_put(out, i - 1);
        first = in;
    }
    return first;
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
names_foods(const struct caution_trigger *t)
{
    return t->tags != NULL || t->food_words != NULL || t->classes != 0;
}

/* the foods that the trigger tried last named */
struct foods_named {
    bool known;
    struct ingredient_set set;
    const struct ingredient *first;
};

static bool
trigger_fires(const struct judging *j, const struct caution *c, size_t number,
              struct foods_named *named, struct hit *hit)
{
    const struct caution_trigger *t = &c->triggers[number];
    *hit = (struct hit){0};
    named->known = named->known && t->same_foods;
    if (!happening_may(j, t))
        return false;
    if (!named->known)
        named->first = ingredients_for(j, t, &named->set);
    named->known = true;
    const struct ingredient *in = named->first;
    if ((names_foods(t) && in == NULL) ||
        (t->title_words != NULL && !title_has(j, t->title_words)) || title_has(j, t->title_lacks) ||
        (t->with != NULL && !has_so_much(j->dish, t)) || happening_ever(j, t, &named->set))
        return false;
    if (!t->clause)
        return post_fires(j, t, in, hit);
    if (!happening_find(j, t, c->kind == CAUTION_PRACTICE, &named->set, hit) ||
        post_has(j, t->post_lacks))
        return false;
    hit->what = slice_part(hit->passage->text, hit->from, hit->to);
    hit->place = passages_place(hit->passage, hit->from, hit->to);
    return true;
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
    struct foods_named named = {0};
    for (size_t k = 0; k < c->trigger_count; k++)
        if (trigger_fires(j, c, k, &named, hit))
            return true;
    return false;
}

/* a caution that another one says as well, and better, is not printed beside it */
static void
drop_covered(struct fired_list *fired)
{
    size_t kept = 0;
    for (size_t i = 0; i < fired->count; i++) {
        bool covered = false;
        for (size_t k = 0; k < fired->count && !covered; k++)
            covered = fired->items[k].caution->instead_of != NULL &&
                      is_id_among(fired->items[i].caution->id,
                                  (const char *const *)fired->items[k].caution->instead_of);
        if (!covered)
            fired->items[kept++] = fired->items[i];
    }
    fired->count = kept;
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
    drop_covered(&fired);
    *out = (struct hazards){fired.items, fired.count};
}
