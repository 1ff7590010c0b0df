#include "read/duration_part.h"

#include "read/activity.h"
#include "read/duration_signs.h"
#include "read/words_listed.h"

enum { DAY = 86400, WEEK = 7 * DAY, MONTH = 30 * DAY };

static const struct duration *
spent_before(const struct durations *before)
{
    for (size_t i = before->count; i > 0; i--)
        if (before->items[i - 1].part == DURATION_SPENT)
            return &before->items[i - 1];
    return NULL;
}

/* "rest 10 minutes before slicing", "for 10 minutes before slicing": the wait itself is meant */
static bool
wait_is_meant(const struct words *w, const struct placed *p)
{
    if (p->from == 0)
        return false;
    size_t i = p->from - 1;
    if (word_is(&w->items[i], "for"))
        return true;
    if (i > 0 && (word_is(&w->items[i], "it") || word_is(&w->items[i], "them")))
        i--;
    return activity_of(w, i) != ACTIVITY_NONE && !word_is(&w->items[i], "fridge") &&
           !word_is(&w->items[i], "freezer") && !word_is(&w->items[i], "refrigerator") &&
           !word_is(&w->items[i], "oven");
}

/* "20 minutes per 500 g": a rate, whose weight is not known */
static bool
rate(const struct words *w, size_t i)
{
    if (i >= w->count || (!word_is(&w->items[i], "per") && !word_is(&w->items[i], "for")))
        return false;
    bool per = word_is(&w->items[i], "per");
    i++;
    if (i < w->count && word_is(&w->items[i], "every")) {
        per = true;
        i++;
    }
    if (i < w->count && w->items[i].kind == WORD_NUMBER)
        i++;
    return per && i < w->count && words_one_of(w, i, WORDS_RATES_PER);
}

/* an adjective to a food ("two-minute noodles") is no duration; to a rest it is */
static bool
attributive_fits(const struct words *w, size_t end)
{
    if (end >= w->count || w->items[end].kind != WORD_LETTERS)
        return true;
    if (words_one_of(w, end, WORDS_BEHIND_TIME_ADJECTIVES))
        return true;
    enum effect effect;
    if (duration_sign_behind(w, end, &effect) > 0)
        return true;
    for (size_t i = end; i < end + 2 && i < w->count && w->items[i].kind == WORD_LETTERS; i++)
        if (activity_of(w, i) != ACTIVITY_NONE || words_one_of(w, i, WORDS_TIME_NOUNS))
            return true;
    return false;
}

/* whether the words are a duration at all: not an age, not "twice a day" or "a second helping" */
static bool
is_duration(const struct words *w, const struct time_span *s, const struct placed *p)
{
    const struct word *first = &w->items[p->first];
    bool article = word_is(first, "a") || word_is(first, "an");
    if (s->attributive && !attributive_fits(w, p->end))
        return false;
    if (p->first > 0 && word_is(&w->items[p->first - 1], ":") && p->first > 1 &&
        w->items[p->first - 2].kind == WORD_NUMBER)
        return false;
    if (s->unit >= DAY && article &&
        (p->first == 0 || !words_one_of(w, p->first - 1, WORDS_BEFORE_A_DAY)))
        return false;
    size_t from = words_sentence_from(w, p->first), to = words_sentence_to(w, p->first);
    if (s->unit >= MONTH && words_any(w, words_list(w, WORDS_YOUNG), from, to, NULL) != NULL)
        return false;
    return s->unit < 365 * DAY ||
           words_any(w, words_list(w, WORDS_KEEPING), from, p->first, NULL) != NULL;
}

static bool
stored(const struct words *w, const struct time_span *s, const struct placed *p, bool at_most)
{
    size_t from = words_sentence_from(w, p->first);
    if (s->unit < DAY)
        return words_any(w, words_list(w, WORDS_KEEPING_OF_HOURS), from, p->first, NULL) != NULL;
    if (words_any(w, words_list(w, WORDS_BREWING), from, p->first, NULL) != NULL)
        return false;
    if (s->unit >= WEEK || words_any(w, words_list(w, WORDS_KEEPING), from, p->first, NULL) != NULL)
        return true;
    return at_most && words_any(w, words_list(w, WORDS_COLD_KEEPING), from, p->first, NULL) != NULL;
}

/* "after 10 minutes": inside what was stated before it, else a stretch of its own where the step
 * has begun already */
static enum duration_part
part_after(const struct words *w, const struct durations *before, const struct placed *p)
{
    return spent_before(before) == NULL && words_sentence_from(w, p->from) > 0 ? DURATION_SPENT
                                                                               : DURATION_INSIDE;
}

/* "for the first 20 minutes": inside, unless a further stretch is all that is stated beside it */
static enum duration_part
part_first(const struct words *w, const struct durations *before, const struct placed *p)
{
    return spent_before(before) == NULL && words_any(w, words_list(w, WORDS_FURTHER_TIMES), p->end,
                                                     p->end + SENTENCE_MOST, NULL) != NULL
               ? DURATION_SPENT
               : DURATION_INSIDE;
}

static void
apply(const struct words *w, enum effect e, const struct durations *before, struct placed *p,
      struct duration *d)
{
    switch (e) {
    case EFFECT_LEAST:
        d->at_least = true;
        break;
    case EFFECT_MOST:
        d->at_most = true;
        break;
    case EFFECT_FURTHER:
        d->further = true;
        break;
    case EFFECT_LAST: /* "leftovers last a week" is a verb */
        if (p->from == 0 || words_one_of(w, p->from - 1, WORDS_BEFORE_THE_LAST) ||
            !word_is(&w->items[p->from], "last"))
            d->part = DURATION_INSIDE;
        break;
    case EFFECT_INSIDE:
        d->part = DURATION_INSIDE;
        break;
    case EFFECT_FIRST:
        d->part = part_first(w, before, p);
        break;
    case EFFECT_EVERY:
        d->part = DURATION_INTERVAL;
        break;
    case EFFECT_AFTER:
        d->part = part_after(w, before, p);
        break;
    case EFFECT_WITHIN:
        d->part = DURATION_BEFORE;
        break;
    case EFFECT_BEFORE:
        if (!wait_is_meant(w, p))
            d->part = DURATION_BEFORE;
        break;
    case EFFECT_TOTAL:
        p->whole = true;
        if (spent_before(before) != NULL)
            d->part = DURATION_INSIDE;
        break;
    case EFFECT_NONE:
    case EFFECT_NOTHING:
        break;
    }
}

/* words that a bracket may follow a duration at: "20 minutes until tender (10 for small ones)" */
static bool
bracket_follows(const struct words *w, const struct placed *last, size_t bracket)
{
    if (bracket < last->to || bracket > last->to + 6)
        return false;
    return words_any(w, words_list(w, WORDS_BEFORE_BRACKETS), last->to, bracket, NULL) == NULL;
}

/* "or on high for": the way back to the last duration's end holds an "or" */
static bool
or_before(const struct words *w, size_t last_end, size_t i)
{
    enum { WORDS_MOST = 10 };
    for (size_t n = 0; i > last_end && n < WORDS_MOST; i--, n++) {
        const struct word *word = &w->items[i - 1];
        if (word_is(word, "or"))
            return true;
        if ((word->kind == WORD_MARK && !word_is(word, "-") && !word_is(word, "(")) ||
            words_among(word, word_lists_all(w->lists, WORDS_BEFORE_OR)))
            return false;
    }
    return false;
}

/* instead of the duration before it: "or 5 minutes in a mixer", "20 minutes (25 if frozen)" */
static enum duration_part
part_beside_last(const struct words *w, const struct durations *before, const struct placed *places,
                 const struct placed *p, bool further)
{
    static const char *const closing[] = {")", NULL};
    if (before->count == 0 || p->from == 0)
        return DURATION_SPENT;
    const struct placed *last = &places[before->count - 1];
    enum duration_part part = before->items[before->count - 1].part;
    if (w->items[last->first].sentence != w->items[p->first].sentence)
        return DURATION_SPENT;
    size_t i = p->from;
    while (i > 0 && (word_is(&w->items[i - 1], "for") || word_is(&w->items[i - 1], "just")))
        i--;
    if (i == 0)
        return DURATION_SPENT;
    if (part == DURATION_INSTEAD && last->from > 0 && word_is(&w->items[last->from - 1], "(") &&
        words_any(w, closing, last->to, i, NULL) == NULL)
        return DURATION_INSIDE;
    if (part != DURATION_SPENT || further)
        return DURATION_SPENT;
    if (or_before(w, last->to, i) || (last->to + 1 == i && word_is(&w->items[i - 1], ",")))
        return DURATION_INSTEAD;
    return word_is(&w->items[i - 1], "(") && bracket_follows(w, last, i - 1) ? DURATION_INSTEAD
                                                                             : DURATION_SPENT;
}

static void
signs_read(const struct words *w, const struct time_span *s, const struct durations *before,
           struct placed *p, struct duration *d)
{
    enum effect effects[8];
    size_t count = 0;
    for (size_t n; count < 4 && (n = duration_sign_before(w, p->from, &effects[count])) > 0;
         count++)
        p->from -= n;
    for (size_t n; count < 6 && (n = duration_sign_behind(w, p->to, &effects[count])) > 0; count++)
        p->to += n - (word_is(&w->items[p->to + n - 1], ",") ? 1 : 0);
    for (size_t i = 0; i < count; i++)
        if (effects[i] != EFFECT_BEFORE || !s->unnumbered)
            apply(w, effects[i], before, p, d);
}

bool
duration_part_read(const struct words *w, const struct time_span *s, const struct durations *before,
                   const struct placed *places, struct placed *p, struct duration *d)
{
    static const char *const how_often[] = {"once", "twice", "times", NULL};
    if (!is_duration(w, s, p))
        return false;
    d->part = DURATION_SPENT;
    d->at_least = s->at_least;
    d->further = s->further;
    bool hyphen = p->to < w->count && word_is(&w->items[p->to], "-");
    enum effect next = EFFECT_NONE;
    if (duration_sign_behind(w, p->to + hyphen, &next) > 0 && next == EFFECT_NOTHING)
        return false;
    signs_read(w, s, before, p, d);
    if (p->first > 0 && word_is(&w->items[p->first], "a") &&
        words_among(&w->items[p->first - 1], how_often))
        d->part = DURATION_INTERVAL;
    if (rate(w, p->to))
        d->part = DURATION_INTERVAL;
    if ((d->part == DURATION_SPENT || d->part == DURATION_BEFORE) && stored(w, s, p, d->at_most))
        d->part = DURATION_STORAGE;
    if (d->part == DURATION_SPENT)
        d->part = part_beside_last(w, before, places, p, d->further);
    return true;
}
