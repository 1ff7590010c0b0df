#include "read/duration_part.h"

#include <string.h>

#include "read/activity.h"

enum { DAY = 86400, WEEK = 7 * DAY, MONTH = 30 * DAY };

enum effect {
    EFFECT_NONE,
    EFFECT_LEAST,
    EFFECT_MOST,
    EFFECT_FURTHER,
    EFFECT_LAST,  /* "the last": inside another */
    EFFECT_FIRST, /* "the first": inside another, unless nothing else is stated */
    EFFECT_EVERY,
    EFFECT_AFTER,
    EFFECT_WITHIN,
    EFFECT_BEFORE,
    EFFECT_TOTAL,
    EFFECT_INSIDE,
    EFFECT_NOTHING /* no duration at all */
};

struct sign {
    const char *phrase;
    enum effect effect;
};

enum { SIGN_WORDS = 4 }; /* of the longest sign before a number */

/* right before the number; the longest that fits counts, then what stands before that */
static const struct sign before_it[] = {
    {"about", EFFECT_NONE},
    {"around", EFFECT_NONE},
    {"roughly", EFFECT_NONE},
    {"approximately", EFFECT_NONE},
    {"approx", EFFECT_NONE},
    {"approx .", EFFECT_NONE},
    {"~", EFFECT_NONE},
    {"some", EFFECT_NONE},
    {"only", EFFECT_NONE},
    {"just", EFFECT_NONE},
    {"exactly", EFFECT_NONE},
    {"a good", EFFECT_NONE},
    {"a full", EFFECT_NONE},
    {"nearly", EFFECT_NONE},
    {"almost", EFFECT_NONE},
    {"anywhere from", EFFECT_NONE},
    {"from", EFFECT_NONE},
    {"at least", EFFECT_LEAST},
    {"a minimum of", EFFECT_LEAST},
    {"minimum of", EFFECT_LEAST},
    {"no less than", EFFECT_LEAST},
    {"not less than", EFFECT_LEAST},
    {"minimum", EFFECT_LEAST},
    {"over", EFFECT_LEAST},
    {"more than", EFFECT_LEAST},
    {"up to", EFFECT_MOST},
    {"at most", EFFECT_MOST},
    {"no more than", EFFECT_MOST},
    {"not more than", EFFECT_MOST},
    {"no longer than", EFFECT_MOST},
    {"not longer than", EFFECT_MOST},
    {"a maximum of", EFFECT_MOST},
    {"maximum", EFFECT_MOST},
    {"less than", EFFECT_MOST},
    {"under", EFFECT_MOST},
    {"another", EFFECT_FURTHER},
    {"a further", EFFECT_FURTHER},
    {"further", EFFECT_FURTHER},
    {"an additional", EFFECT_FURTHER},
    {"additional", EFFECT_FURTHER},
    {"an extra", EFFECT_FURTHER},
    {"a final", EFFECT_FURTHER},
    {"a last", EFFECT_FURTHER},
    {"extra", EFFECT_FURTHER},
    {"the last", EFFECT_LAST},
    {"the final", EFFECT_LAST},
    {"last", EFFECT_LAST},
    {"final", EFFECT_LAST},
    {"the first", EFFECT_FIRST},
    {"first", EFFECT_FIRST},
    {"the", EFFECT_INSIDE},
    {"these", EFFECT_INSIDE},
    {"those", EFFECT_INSIDE},
    {"the remaining", EFFECT_LAST},
    {"remaining", EFFECT_LAST},
    {"every", EFFECT_EVERY},
    {"every other", EFFECT_EVERY},
    {"after", EFFECT_AFTER},
    {"after the first", EFFECT_AFTER},
    {"within", EFFECT_WITHIN},
    {"within the first", EFFECT_INSIDE},
    {"by", EFFECT_INSIDE},
    {"ready in", EFFECT_INSIDE},
    {"ready in just", EFFECT_INSIDE},
    {"ready in about", EFFECT_INSIDE},
    {"ready in under", EFFECT_INSIDE},
    {"on the table in", EFFECT_INSIDE},
    {"add", EFFECT_INSIDE},
};

/* right behind the unit */
static const struct sign behind_it[] = {
    {"more", EFFECT_FURTHER},     {"longer", EFFECT_FURTHER},     {"further", EFFECT_FURTHER},
    {"extra", EFFECT_FURTHER},    {"maximum", EFFECT_MOST},       {"max", EFFECT_MOST},
    {"at most", EFFECT_MOST},     {"at the most", EFFECT_MOST},   {"tops", EFFECT_MOST},
    {"minimum", EFFECT_LEAST},    {"at least", EFFECT_LEAST},     {"at the least", EFFECT_LEAST},
    {"in total", EFFECT_TOTAL},   {"total", EFFECT_TOTAL},        {"altogether", EFFECT_TOTAL},
    {"in all", EFFECT_TOTAL},     {"all up", EFFECT_TOTAL},       {"beforehand", EFFECT_BEFORE},
    {"before", EFFECT_BEFORE},    {"in advance", EFFECT_BEFORE},  {"early", EFFECT_BEFORE},
    {"sooner", EFFECT_BEFORE},    {"ahead", EFFECT_BEFORE},       {"from the end", EFFECT_BEFORE},
    {"prior", EFFECT_BEFORE},     {"to go", EFFECT_BEFORE},       {"left", EFFECT_BEFORE},
    {"remaining", EFFECT_BEFORE}, {"earlier", EFFECT_BEFORE},     {"ago", EFFECT_BEFORE},
    {"later", EFFECT_INSIDE},     {"less", EFFECT_INSIDE},        {"fewer", EFFECT_INSIDE},
    {"shorter", EFFECT_INSIDE},   {"mark", EFFECT_INSIDE},        {"in ,", EFFECT_INSIDE},
    {"into", EFFECT_INSIDE},      {"after", EFFECT_BEFORE},       {"intervals", EFFECT_EVERY},
    {"interval", EFFECT_EVERY},   {"bursts", EFFECT_EVERY},       {"burst", EFFECT_EVERY},
    {"increments", EFFECT_EVERY}, {"pulses", EFFECT_EVERY},       {"bouts", EFFECT_EVERY},
    {"blasts", EFFECT_EVERY},     {"spurts", EFFECT_EVERY},       {"goes", EFFECT_EVERY},
    {"stages", EFFECT_EVERY},     {"rounds", EFFECT_EVERY},       {"zaps", EFFECT_EVERY},
    {"stints", EFFECT_EVERY},     {"short bursts", EFFECT_EVERY}, {"at a time", EFFECT_EVERY},
    {"apart", EFFECT_EVERY},      {"old", EFFECT_NOTHING},        {"of age", EFFECT_NOTHING},
};

/* what an attributive stretch may stand before: "a 20-minute rest" */
static const char *const stretch_nouns[] = {
    "timer", "spell", "period", "time",     "stretch", "window",   "break",     "nap",
    "stint", "proof", "wait",   "cooldown", "swim",    "infusion", "interlude", NULL};
static const char *const function_words[] = {
    "until", "or",      "and",  "then", "at",    "on",   "in",       "per",     "each",
    "for",   "before",  "with", "to",   "while", "over", "stirring", "turning", "of",
    "after", "covered", "by",   "more", "total", "a",    "if",       "so",      NULL};

static const char *const brew_words[] = {
    "ferment*", "cure",    "curing",   "mature",    "matures",    "age",   "marinate*", "steep*",
    "infuse*",  "brine",   "macerate", "soak*",     "feed",       "thaw*", "defrost*",  "pickle",
    "drain",    "sprout*", "stand",    "warm spot", "warm place", NULL};
static const char *const keep_words[] = {
    "keep",       "keeps",     "kept",      "store",   "stored",
    "stores",     "lasts",     "will last", "stay*",   "good for",
    "fresh for",  "eat",       "use",       "eaten",   "consume",
    "shelf life", "leftovers", "airtight",  "freezes", "freeze for up to",
    "frozen for", "sealed",    "finish",    "best",    NULL};
static const char *const keep_strongly[] = {"keeps",
                                            "will keep",
                                            "can be kept",
                                            "store",
                                            "stored",
                                            "lasts",
                                            "will last",
                                            "stay fresh",
                                            "stays fresh",
                                            "stays crisp",
                                            "stay crisp",
                                            "keep in an airtight",
                                            "keep for",
                                            "keep in the fridge",
                                            "keep them in",
                                            "keep it in",
                                            "keep warm for up to",
                                            "hold for up to",
                                            NULL};
static const char *const cold_words[] = {"chill",   "refrigerate",  "refrigerated",
                                         "fridge",  "refrigerator", "freeze",
                                         "freezer", "frozen",       NULL};
static const char *const young_words[] = {"baby",     "babies",  "infant",   "infants", "child",
                                          "children", "toddler", "toddlers", "newborn", NULL};
static const char *const weight_words[] = {"g",   "kg",    "kilo",  "kilogram", "lb",
                                           "lbs", "pound", "oz",    "ounce",    "inch",
                                           "cm",  "gram",  "grams", NULL};
static const char *const article_leads[] = {"for", "within", "to",   "another", "after", "least",
                                            "or",  "about",  "half", "than",    "keeps", NULL};

/* words of a phrase that end right before word i; 0: it is not there */
static size_t
phrase_before(const struct words *w, size_t i, const char *phrase)
{
    size_t n = 1;
    for (const char *p = phrase; *p != '\0'; p++)
        n += *p == ' ';
    return i >= n && words_at(w, i - n, phrase) == n ? n : 0;
}

/* bits of the letters that the SIGN_WORDS words before word i begin with; other characters share
 * them, which does no harm */
static uint32_t
letters_before(const struct words *w, size_t i)
{
    uint32_t letters = 0;
    for (size_t n = 0; n < SIGN_WORDS && n < i; n++)
        letters |= UINT32_C(1) << (w->items[i - 1 - n].folded.at[0] & 31);
    return letters;
}

static const struct sign *
sign_before(const struct words *w, size_t i, size_t *length)
{
    const struct sign *best = NULL;
    const uint32_t letters = letters_before(w, i);
    *length = 0;
    for (size_t k = 0; i > 0 && k < sizeof before_it / sizeof *before_it; k++) {
        if ((letters >> (before_it[k].phrase[0] & 31) & 1) == 0)
            continue; /* most signs begin with no word that stands here */
        size_t n = phrase_before(w, i, before_it[k].phrase);
        if (n > *length) {
            *length = n;
            best = &before_it[k];
        }
    }
    return best;
}

static const struct sign *
sign_behind(const struct words *w, size_t i, size_t *length)
{
    const struct sign *best = NULL;
    *length = 0;
    if (i >= w->count)
        return NULL;
    const char first = w->items[i].folded.at[0];
    for (size_t k = 0; k < sizeof behind_it / sizeof *behind_it; k++) {
        if (behind_it[k].phrase[0] != first)
            continue;
        size_t n = words_at(w, i, behind_it[k].phrase);
        if (n > *length) {
            *length = n;
            best = &behind_it[k];
        }
    }
    return best;
}

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
    return activity_of(&w->items[i]) != ACTIVITY_NONE && !word_is(&w->items[i], "fridge") &&
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
    return per && i < w->count && word_among(&w->items[i], weight_words);
}

/* an adjective to a food ("two-minute noodles") is no duration; to a rest it is */
static bool
attributive_fits(const struct words *w, size_t end)
{
    if (end >= w->count || w->items[end].kind != WORD_LETTERS)
        return true;
    if (word_among(&w->items[end], function_words))
        return true;
    size_t length = 0;
    if (sign_behind(w, end, &length) != NULL)
        return true;
    for (size_t i = end; i < end + 2 && i < w->count && w->items[i].kind == WORD_LETTERS; i++)
        if (activity_of(&w->items[i]) != ACTIVITY_NONE || word_among(&w->items[i], stretch_nouns))
            return true;
    return false;
}

/* whether the words are a duration at all: not an age, not "twice a day" or "a second helping" */
static bool
is_duration(const struct words *w, const struct stretch *s, const struct placed *p)
{
    const struct word *first = &w->items[p->first];
    bool article = word_is(first, "a") || word_is(first, "an");
    if (s->attributive && !attributive_fits(w, p->end))
        return false;
    if (p->first > 0 && word_is(&w->items[p->first - 1], ":") && p->first > 1 &&
        w->items[p->first - 2].kind == WORD_NUMBER)
        return false;
    if (s->unit >= DAY && article &&
        (p->first == 0 || !word_among(&w->items[p->first - 1], article_leads)))
        return false;
    size_t from = words_sentence_from(w, p->first), to = words_sentence_to(w, p->first);
    if (s->unit >= MONTH && words_any(w, young_words, from, to, NULL) != NULL)
        return false;
    return s->unit < 365 * DAY || words_any(w, keep_words, from, p->first, NULL) != NULL;
}

static bool
stored(const struct words *w, const struct stretch *s, const struct placed *p, bool at_most)
{
    size_t from = words_sentence_from(w, p->first);
    if (s->unit < DAY)
        return words_any(w, keep_strongly, from, p->first, NULL) != NULL;
    if (words_any(w, brew_words, from, p->first, NULL) != NULL)
        return false;
    if (s->unit >= WEEK || words_any(w, keep_words, from, p->first, NULL) != NULL)
        return true;
    return at_most && words_any(w, cold_words, from, p->first, NULL) != NULL;
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
    static const char *const further[] = {"more", "another", "further", "longer", "then", NULL};
    return spent_before(before) == NULL &&
                   words_any(w, further, p->end, p->end + SENTENCE_MOST, NULL) != NULL
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
    case EFFECT_LAST:
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
    static const char *const breaks[] = {",", "and", "then", ")", "(", ":", NULL};
    if (bracket < last->to || bracket > last->to + 6)
        return false;
    return words_any(w, breaks, last->to, bracket, NULL) == NULL;
}

/* "or on high for": the way back to the last duration's end holds an "or" */
static bool
or_before(const struct words *w, size_t last_end, size_t i)
{
    enum { WORDS_MOST = 10 };
    static const char *const breaks[] = {"then", "and", "until", NULL};
    for (size_t n = 0; i > last_end && n < WORDS_MOST; i--, n++) {
        const struct word *word = &w->items[i - 1];
        if (word_is(word, "or"))
            return true;
        if ((word->kind == WORD_MARK && !word_is(word, "-") && !word_is(word, "(")) ||
            word_among(word, breaks))
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
signs_read(const struct words *w, const struct durations *before, struct placed *p,
           struct duration *d)
{
    size_t n = 0;
    enum effect effects[8];
    size_t count = 0;
    for (const struct sign *s; count < 4 && (s = sign_before(w, p->from, &n)) != NULL; count++) {
        p->from -= n;
        effects[count] = s->effect;
    }
    for (const struct sign *s; count < 6 && (s = sign_behind(w, p->to, &n)) != NULL; count++) {
        effects[count] = s->effect;
        p->to += n - (word_is(&w->items[p->to + n - 1], ",") ? 1 : 0);
    }
    for (size_t i = 0; i < count; i++)
        apply(w, effects[i], before, p, d);
}

bool
duration_part_read(const struct words *w, const struct stretch *s, const struct durations *before,
                   const struct placed *places, struct placed *p, struct duration *d)
{
    static const char *const how_often[] = {"once", "twice", "times", NULL};
    if (!is_duration(w, s, p))
        return false;
    d->part = DURATION_SPENT;
    d->at_least = s->at_least;
    d->further = s->further;
    size_t n = 0;
    bool hyphen = p->to < w->count && word_is(&w->items[p->to], "-");
    const struct sign *next = sign_behind(w, p->to + hyphen, &n);
    if (next != NULL && next->effect == EFFECT_NOTHING)
        return false;
    signs_read(w, before, p, d);
    if (p->first > 0 && word_is(&w->items[p->first], "a") &&
        word_among(&w->items[p->first - 1], how_often))
        d->part = DURATION_INTERVAL;
    if (rate(w, p->to))
        d->part = DURATION_INTERVAL;
    if ((d->part == DURATION_SPENT || d->part == DURATION_BEFORE) && stored(w, s, p, d->at_most))
        d->part = DURATION_STORAGE;
    if (d->part == DURATION_SPENT)
        d->part = part_beside_last(w, before, places, p, d->further);
    return true;
}
