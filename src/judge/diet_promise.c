#include "judge/diet_promise.h"

#include "judge/promise.h"

/* words before a promise that can take it back */
enum { DENIED_BEFORE = 4 };

/* the first place at or behind `from` where the words promise it, and their end; SIZE_MAX: nowhere.
 * A title promises in any words; prose that goes on to a diet or another dish does not. */
static size_t
find(const struct words *w, const struct word_lists *lists, enum word_list_number list,
     bool in_prose, size_t *end)
{
    const char *const *promised = word_lists_all(lists, list);
    const char *const *denied = word_lists_all(lists, WORDS_PROMISE_DENIED);
    size_t at = 0;
    for (const char *phrase; (phrase = words_next(w, promised, at, &at)) != NULL; at++) {
        const size_t next = at + words_at(w, at, phrase);
        const size_t before = at > DENIED_BEFORE ? at - DENIED_BEFORE : 0;
        if (in_prose && next < w->count &&
            word_lists_have(lists, WORDS_PROMISE_ELSE, w->items[next].folded))
            continue;
        if (words_any(w, denied, before, at, NULL) != NULL)
            continue;
        *end = next;
        return at;
    }
    return SIZE_MAX;
}

bool
diet_promise_claimed(struct arena *a, const struct word_lists *lists, struct slice text)
{
    struct words w;
    size_t end;
    words_read(a, lists, text, &w);
    return find(&w, lists, WORDS_DIET_PROMISED, false, &end) != SIZE_MAX;
}

/* what stands in the way, by the post's own words */
static struct slice
name_of(const struct limit_stand *l)
{
    const struct load *load = l->worst.chief != NULL ? l->worst.chief : l->worst.lack.load;
    return load == NULL ? SLICE("") : slice_trim(load->helping->written->name);
}

enum rule
diet_promise_rule(struct arena *a, const struct phase_stand *stand, struct slice *because)
{
    static const char *const words[] = {"within the limits", "close to a limit", "not known",
                                        "over the limits"};
    const struct limit_stand *l = stand->limit_count > 0 ? &stand->limits[0] : NULL;
    struct text t = text_new(a);
    if (stand->standing == STANDING_UNKNOWN)
        text_add_string(&t, "how one portion stands is not known");
    else
        text_addf(&t, "one portion is %s", words[stand->standing]);
    if (stand->standing != STANDING_WITHIN && l != NULL && name_of(l).length > 0)
        text_addf(&t, ", by the %.*s", SLICE_ARGS(name_of(l)));
    *because = text_slice(&t);
    switch (stand->standing) {
    case STANDING_OVER:
        return stand->best_standing <= STANDING_CLOSE ? RULE_CLAIM_ON_CHOICE : RULE_CLAIM_FALSE;
    case STANDING_UNKNOWN:
        return RULE_CLAIM_UNKNOWN;
    case STANDING_CLOSE:
        return RULE_CLAIM_CLOSE;
    default:
        return RULES;
    }
}

struct looking {
    const struct judging *judging;
    enum rule rule;
    struct slice because;
    bool told; /* the promise of the diet; each cause once */
};

static void
tell(struct looking *l, struct place place, struct slice what, bool disease)
{
    if (disease) {
        notice_add(l->judging->notices, RULE_CLAIM_HEALTH, place, what, SLICE(""));
    } else if (!l->told && l->rule != RULES) {
        notice_add(l->judging->notices, l->rule, place, what, l->because);
        l->told = true;
    }
}

static void
look_in_value(struct looking *l, const struct front_value *value, const struct words *w)
{
    for (int disease = 0; disease < 2; disease++) {
        size_t end, at = find(w, l->judging->tables->words,
                              disease ? WORDS_DISEASE_PROMISED : WORDS_DIET_PROMISED, false, &end);
        if (at == SIZE_MAX)
            continue;
        const size_t from = w->items[at].from, to = w->items[end - 1].to;
        tell(l, promise_place(value, from, to), slice_part(value->text, from, to), disease > 0);
    }
}

static void
look_in_section(struct looking *l, const struct body_section *s)
{
    for (int disease = 0; disease < 2; disease++) {
        size_t end, at = find(&s->words, l->judging->tables->words,
                              disease ? WORDS_DISEASE_PROMISED : WORDS_DIET_PROMISED, true, &end);
        if (at == SIZE_MAX)
            continue;
        const struct slice what =
            slice_part(s->text, s->words.items[at].from, s->words.items[end - 1].to);
        tell(l, promise_place_in_body(&l->judging->post->body, what), what, disease > 0);
    }
}

void
diet_promise_judge(const struct judging *j, const struct phase_stand *stand, bool claimed)
{
    struct looking l = {.judging = j, .told = claimed};
    l.rule = diet_promise_rule(j->arena, stand, &l.because);
    look_in_value(&l, &j->post->front.title, &j->post->title_words);
    look_in_value(&l, &j->post->front.summary, &j->post->summary_words);
    look_in_section(&l, &j->post->body.prose);
    look_in_section(&l, &j->post->body.notes);
}
