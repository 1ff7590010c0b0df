#include "judge/heats.h"

#include "reckon/heat_doubt.h"

static const struct step *
step_of(const struct judging *j, const struct step_time *st)
{
    return &j->post->body.parts[st->part].steps[st->step];
}

static void
judge_doubts(const struct judging *j, const struct step_time *st)
{
    const struct step *step = step_of(j, st);
    for (size_t i = 0; i < st->marks.heats.count; i++) {
        const struct heat *h = &st->marks.heats.items[i];
        if (h->implausible)
            notice_add(j->notices, RULE_HEAT_IMPLAUSIBLE, body_step_place(step, h->from, h->to),
                       slice_part(step->text, h->from, h->to), heat_doubt_words(j->arena, h));
    }
}

static uint32_t
sentence_of(const struct step_marks *m, size_t byte)
{
    return m->words.items[words_byte(&m->words, byte)].sentence;
}

/* the duration that goes with a power: of those in its sentence the one of the same rank, or
 * SIZE_MAX */
static size_t
time_beside(const struct step_marks *m, size_t power)
{
    const uint32_t sentence = sentence_of(m, m->powers.items[power].from);
    size_t rank = 0, count = 0;
    for (size_t i = 0; i < power; i++)
        rank += sentence_of(m, m->powers.items[i].from) == sentence;
    for (size_t i = 0; i < m->durations.count; i++)
        if (sentence_of(m, m->durations.items[i].core_from) == sentence && count++ == rank)
            return i;
    return SIZE_MAX;
}

/* "at 800 W for 5 minutes, then at 400 W": one after the other */
static bool
one_after_other(const struct step_marks *m, const struct power *one, const struct power *other)
{
    return sentence_of(m, one->from) != sentence_of(m, other->from) ||
           words_any(&m->words, words_list(&m->words, WORDS_ONE_AFTER_THE_OTHER),
                     words_byte(&m->words, one->from), words_byte(&m->words, other->from),
                     NULL) != NULL;
}

static void
judge_powers(const struct judging *j, const struct step_time *st)
{
    const struct step_marks *m = &st->marks;
    const struct step *step = step_of(j, st);
    for (size_t i = 0; i + 1 < m->powers.count; i++) {
        const struct power *one = &m->powers.items[i], *other = &m->powers.items[i + 1];
        const size_t t = time_beside(m, i), u = time_beside(m, i + 1);
        if (t == SIZE_MAX || u == SIZE_MAX || t == u || one_after_other(m, one, other))
            continue;
        const struct duration *d = &m->durations.items[t], *e = &m->durations.items[u];
        const double watts = one->watts - other->watts, time = d->seconds.mid - e->seconds.mid;
        if (watts == 0 || watts * time < 0)
            continue;
        struct text more = text_new(j->arena);
        text_addf(&more, "%.0f W for ", one->watts);
        duration_write_words(&more, d->seconds.mid);
        text_addf(&more, ", %.0f W for ", other->watts);
        duration_write_words(&more, e->seconds.mid);
        const size_t from = d->core_from < one->from ? d->core_from : one->from;
        const size_t to = e->core_to > other->to ? e->core_to : other->to;
        notice_add(j->notices, RULE_MICROWAVE_PAIR, body_step_place(step, from, to),
                   slice_part(step->text, from, to), text_slice(&more));
        return;
    }
}

void
heats_judge(const struct judging *j)
{
    for (size_t k = 0; k < j->schedule->count; k++) {
        judge_doubts(j, &j->schedule->steps[k]);
        judge_powers(j, &j->schedule->steps[k]);
    }
}
