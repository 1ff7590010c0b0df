#include "reckon/microwave.h"

#include <math.h>

#include "base/list.h"
#include "read/words_listed.h"

enum { POWERS_MOST = 8, NEAR = 60 };

struct rows {
    struct microwave_row *items;
    size_t count, room;
};

double
microwave_seconds(double seconds, double watts, double other_watts)
{
    if (!(watts > 0) || !(other_watts > 0))
        return seconds;
    /* a hair below a whole 5 s is that 5 s: no step of floating point may add five seconds */
    return ceil(seconds * watts / other_watts / 5 - 1e-9) * 5;
}

/* whether the duration is a microwave's: the word stands before it in its sentence, or opened the
 * step and no other heat took over */
static bool
in_microwave(const struct step_marks *m, size_t i)
{
    const struct words *w = &m->words;
    const struct duration *d = &m->durations.items[i];
    if ((d->part != DURATION_SPENT && d->part != DURATION_INSTEAD) ||
        m->activities[i] == ACTIVITY_RESTING)
        return false;
    size_t word = words_byte(w, d->core_from);
    size_t from = words_sentence_from(w, word), to = words_sentence_to(w, word);
    size_t at = 0;
    for (size_t k = word; k > from; k--)
        if (words_one_of(w, k - 1, WORDS_MICROWAVES))
            return words_any(w, words_list(w, WORDS_OTHER_HEATS), k, word, NULL) == NULL;
        else if (words_one_of(w, k - 1, WORDS_OTHER_HEATS) && !word_is(&w->items[k - 1], "oven"))
            return false;
    if (words_any(w, words_list(w, WORDS_MICROWAVES), word, to, &at) != NULL && at < word + 8)
        return true;
    return from > 0 && words_any(w, words_list(w, WORDS_OTHER_HEATS), from, to, NULL) == NULL &&
           words_any(w, words_list(w, WORDS_MICROWAVES), 0, from, NULL) != NULL &&
           words_any(w, words_list(w, WORDS_OTHER_HEATS), 0, from, NULL) == NULL;
}

/* the power nearest to the duration in its sentence, else the last one said before it in the step
 */
static double
power_for(const struct step_marks *m, const struct duration *d)
{
    const struct words *w = &m->words;
    uint32_t sentence = w->items[words_byte(w, d->core_from)].sentence;
    double watts = 0;
    size_t best = SIZE_MAX;
    for (size_t i = 0; i < m->powers.count; i++) {
        const struct power *p = &m->powers.items[i];
        size_t gap = p->from > d->core_to ? p->from - d->core_to : d->core_from - p->from;
        bool same = w->items[words_byte(w, p->from)].sentence == sentence;
        if (!same && p->from > d->core_to)
            continue;
        if (!same)
            gap += w->items[w->count - 1].to;
        if (gap < best) {
            best = gap;
            watts = p->watts;
        }
    }
    return watts;
}

/* "on medium": another power than the one said before */
static bool
other_power(const struct step_marks *m, const struct duration *d)
{
    size_t word = words_byte(&m->words, d->core_from);
    return words_any(&m->words, words_list(&m->words, WORDS_POWER_LEVELS),
                     words_sentence_from(&m->words, word), words_sentence_to(&m->words, word),
                     NULL) != NULL;
}

/* the one power that the prose or the notes speak of ("tested at 800 W"), or 0 */
static double
power_beside(struct arena *a, const struct body *body)
{
    const struct words *texts[] = {&body->prose.words, &body->notes.words};
    double watts = 0;
    for (size_t k = 0; k < sizeof texts / sizeof *texts; k++) {
        struct powers found;
        heat_powers_find(a, texts[k], &found);
        for (size_t i = 0; i < found.count; i++) {
            if (watts > 0 && found.items[i].watts != watts)
                return 0;
            watts = found.items[i].watts;
        }
    }
    return watts;
}

void
microwave_read(struct arena *a, const struct body *body, const struct schedule *s,
               const double *watts, size_t watt_count, struct microwave *out)
{
    struct rows rows = {0}, bare = {0};
    double earlier = -1; /* in an earlier step; -1: not looked for */
    if (watt_count > POWERS_MOST)
        watt_count = POWERS_MOST;
    for (size_t k = 0; k < s->count; k++) {
        const struct step_time *st = &s->steps[k];
        if (st->marks.durations.count == 0 ||
            words_any(&st->marks.words, words_list(&st->marks.words, WORDS_MICROWAVES), 0,
                      st->marks.words.count, NULL) == NULL)
            continue;
        for (size_t i = 0; i < st->marks.durations.count; i++) {
            if (!in_microwave(&st->marks, i))
                continue;
            const struct duration *d = &st->marks.durations.items[i];
            struct microwave_row row = {.part = st->part, .step = st->step, .duration = i};
            row.stated_seconds = d->seconds.high;
            row.watts = power_for(&st->marks, d);
            if (!(row.watts > 0) && !other_power(&st->marks, d))
                row.watts = earlier >= 0 ? earlier : power_beside(a, body);
            if (row.watts > 0)
                earlier = row.watts;
            for (size_t p = 0; row.watts > 0 && p < watt_count; p++)
                row.seconds[p] = microwave_seconds(row.stated_seconds, row.watts, watts[p]);
            *(row.watts > 0 ? LIST_GROW(a, &rows) : LIST_GROW(a, &bare)) = row;
        }
    }
    *out = (struct microwave){
        .rows = rows.items, .count = rows.count, .bare = bare.items, .bare_count = bare.count};
}
