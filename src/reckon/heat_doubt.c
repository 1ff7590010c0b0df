#include "reckon/heat_doubt.h"

/* degrees C. A home oven reaches about 275; nothing bakes below 100 in less than an hour; below 50
 * nothing bakes at all: common practice, no source */
static const double hottest = 300, bakes = 100, coolest = 50;
static const double slow = 3600; /* s: who bakes so long may mean so low a heat */

/* s of the longest cooking in the steps */
static double
longest_cooking(const struct schedule *s)
{
    double most = 0;
    for (size_t k = 0; k < s->count; k++) {
        const struct step_marks *m = &s->steps[k].marks;
        for (size_t i = 0; i < m->durations.count; i++)
            if (m->activities[i] != ACTIVITY_RESTING && m->durations.items[i].seconds.high > most)
                most = m->durations.items[i].seconds.high;
    }
    return most;
}

/* "the oven to 30 °C": set on the oven, not read in the food */
static bool
is_set(const struct heat *h, const struct words *w)
{
    enum { BEFORE = 5 };
    const size_t i = words_byte(w, h->from), from = words_sentence_from(w, i);
    return words_any(w, words_list(w, WORDS_SET_ON_THE_OVEN), i > from + BEFORE ? i - BEFORE : from,
                     i, NULL) != NULL;
}

static bool
is_implausible(const struct heat *h, const struct words *w, double cooking)
{
    const bool other = h->of == HEAT_OF_FOOD || h->of == HEAT_OF_OIL || h->of == HEAT_OF_SYRUP;
    if (h->no_unit || other || (h->of != HEAT_OF_OVEN && !is_set(h, w)))
        return false;
    if (h->scale == HEAT_GAS)
        return h->value.mid > 9;
    if (h->celsius.mid > hottest)
        return !words_have(w, words_list(w, WORDS_HOTTER_OVENS));
    return is_set(h, w) && !words_have(w, words_list(w, WORDS_DONE_COOL)) &&
           (h->celsius.mid < coolest || (h->celsius.mid < bakes && cooking > 0 && cooking < slow));
}

void
heat_doubt_mark(struct schedule *s)
{
    const double cooking = longest_cooking(s);
    for (size_t k = 0; k < s->count; k++) {
        struct step_marks *m = &s->steps[k].marks;
        for (size_t i = 0; i < m->heats.count; i++)
            m->heats.items[i].implausible = is_implausible(&m->heats.items[i], &m->words, cooking);
    }
}

struct slice
heat_doubt_words(struct arena *a, const struct heat *h)
{
    if (h->scale == HEAT_GAS)
        return SLICE("gas marks go to 9");
    const bool hot = h->celsius.mid > hottest, celsius = h->scale == HEAT_CELSIUS;
    const double other = celsius ? heat_celsius(h->value.mid) : h->value.mid;
    struct text t = text_new(a);
    text_add_string(&t, hot ? "an oven reaches about 275 °C" : "nothing bakes at it in that time");
    if (other >= 120 && other <= 290 && celsius == hot)
        text_addf(&t, "; perhaps %.0f °%s was meant", h->value.mid, celsius ? "F" : "C");
    return text_slice(&t);
}
