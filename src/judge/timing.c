#include "judge/timing.h"

#include <math.h>

#include "judge/least_time.h"
#include "judge/promise.h"

static const struct step *
step_of(const struct post *post, const struct step_time *st)
{
    return &post->body.parts[st->part].steps[st->step];
}

static struct slice
words_of(const struct post *post, const struct step_time *st, size_t from, size_t to)
{
    return slice_part(step_of(post, st)->text, from, to);
}

static void
add_time(struct text *t, const char *name, const struct front_time *time)
{
    if (!time->given)
        return;
    if (t->length > 0)
        text_add_string(t, ", ");
    text_addf(t, "%s ", name);
    duration_write_words(t, time->seconds.high);
}

static struct slice
parts_words(struct arena *a, const struct front_matter *f)
{
    struct text t = text_new(a);
    add_time(&t, "prep", &f->prep);
    add_time(&t, "cook", &f->cook);
    add_time(&t, "rest", &f->rest);
    return text_slice(&t);
}

static void
judge_total(struct arena *a, const struct front_matter *f, struct notices *notices)
{
    const struct front_time *parts[] = {&f->prep, &f->cook, &f->rest};
    double sum = 0;
    for (size_t i = 0; i < 3; i++)
        sum += parts[i]->given ? parts[i]->seconds.low : 0;
    if (!f->total.given || f->total.seconds.high + 60 >= sum)
        return;
    struct text more = text_new(a);
    add_time(&more, "total", &f->total);
    text_add_string(&more, ", but ");
    text_add(&more, parts_words(a, f));
    text_add_string(&more, " make ");
    duration_write_words(&more, sum);
    notice_add(notices, RULE_TIME_TOTAL, f->total.front_value.place, SLICE("times"),
               text_slice(&more));
}

/* seconds that are declared for all of it: the total, or the parts where cooking is among them */
static bool
declared(const struct front_matter *f, const struct schedule *s, double *seconds)
{
    *seconds = f->total.given ? f->total.seconds.high
                              : f->cook.seconds.high + (f->prep.given ? f->prep.seconds.high : 0) +
                                    (f->rest.given ? f->rest.seconds.high : 0);
    /* prep alone is all of it where nothing cooks: "chill for 6 hours" */
    return f->total.given || f->cook.given || (f->prep.given && s->cooking.low <= 0) ||
           (f->rest.given && f->prep.given);
}

static void
raise_declared(struct arena *a, const struct post *post, const struct schedule *s,
               struct notices *notices)
{
    const struct front_matter *f = &post->front;
    struct text words = text_new(a);
    if (f->total.given)
        add_time(&words, "total", &f->total);
    else
        text_add(&words, parts_words(a, f));
    notice_add(notices, RULE_TIME_DECLARED,
               f->total.given  ? f->total.front_value.place
               : f->cook.given ? f->cook.front_value.place
                               : f->prep.front_value.place,
               text_slice(&words), least_time_words(a, post, s));
}

/* a declared cooking or resting time that a single stated duration is longer than */
static bool
judge_part(struct arena *a, const struct post *post, const struct schedule *s, const char *name,
           const struct front_time *time, enum activity activity, struct notices *notices)
{
    if (!time->given)
        return false;
    for (size_t k = 0; k < s->count; k++) {
        const struct step_time *st = &s->steps[k];
        for (size_t i = 0; i < st->marks.durations.count; i++) {
            const struct duration *d = &st->marks.durations.items[i];
            bool alternatives = i + 1 < st->marks.durations.count &&
                                st->marks.durations.items[i + 1].part == DURATION_INSTEAD;
            if (d->part != DURATION_SPENT || st->marks.activities[i] != activity || alternatives ||
                d->seconds.low * d->times <= time->seconds.high * 1.05 + 1)
                continue;
            struct text what = text_new(a), more = text_new(a);
            add_time(&what, name, time);
            text_add_string(&more, "at least ");
            duration_write_words(&more, d->seconds.low * d->times);
            text_add_string(&more, ": “");
            text_add(&more, words_of(post, st, d->from, d->to));
            text_addf(&more, "” in step %zu", k + 1);
            notice_add(notices, RULE_TIME_DECLARED, time->front_value.place, text_slice(&what),
                       text_slice(&more));
            return true;
        }
    }
    return false;
}

enum { ABOVE_LEAST = 20 * 60 }; /* s; less is the cook's own slack */

/* a cooking time that the steps, which state theirs, come nowhere near: two that run side by side
 * were added up, or a step does not say how long it takes */
static void
judge_above(struct arena *a, const struct front_matter *f, const struct schedule *s,
            struct notices *notices)
{
    const double steps = s->total.high;
    const double said = f->cook.given ? f->cook.seconds.low : 0;
    if (!s->stated || !(steps > 0) || said < steps * 1.4 || said - steps < ABOVE_LEAST)
        return;
    struct text what = text_new(a), more = text_new(a);
    add_time(&what, "cook", &f->cook);
    duration_write_words(&more, steps);
    notice_add(notices, RULE_TIME_ABOVE, f->cook.front_value.place, text_slice(&what),
               text_slice(&more));
}

static void
judge_declared(struct arena *a, const struct post *post, const struct schedule *s,
               struct notices *notices)
{
    const struct front_matter *f = &post->front;
    double seconds;
    if (declared(f, s, &seconds) && least_time_exceeds(s, seconds)) {
        raise_declared(a, post, s, notices);
        return;
    }
    judge_above(a, f, s, notices);
    if (!judge_part(a, post, s, "cook", &f->cook, ACTIVITY_COOKING, notices))
        judge_part(a, post, s, "rest", &f->rest, ACTIVITY_RESTING, notices);
}

/* the first heat in the scale of the second, for the message */
static struct slice
in_scale_of(struct arena *a, const struct heat *first, const struct heat *second)
{
    struct text t = text_new(a);
    double celsius = first->celsius.mid;
    if (first->fan != second->fan) {
        text_add_string(&t, "a fan oven is set about 20 °C lower than another");
        return text_slice(&t);
    }
    double mark = heat_gas_mark(celsius);
    if (second->scale == HEAT_FAHRENHEIT)
        text_addf(&t, "the first is %.0f °F", heat_fahrenheit(celsius));
    else if (second->scale == HEAT_CELSIUS)
        text_addf(&t, "the first is %.0f °C", celsius);
    else if (isnan(mark))
        text_add_string(&t, "the first is no gas mark");
    else {
        text_add_string(&t, "the first is gas mark ");
        text_add_number(&t, mark, 2);
    }
    return text_slice(&t);
}

/* the bracket that closes one opened in from..to: 1 byte, or 0 */
static size_t
bracket_behind(struct slice text, size_t from, size_t to)
{
    struct slice words = slice_part(text, from, to);
    return slice_find_byte(words, '(', 0) != SIZE_MAX &&
           slice_find_byte(words, ')', 0) == SIZE_MAX && to < text.length && text.at[to] == ')';
}

static void
judge_heats(struct arena *a, const struct post *post, const struct step_time *st,
            struct notices *notices)
{
    const struct heats *heats = &st->marks.heats;
    const struct step *step = step_of(post, st);
    size_t head = 0;
    for (size_t i = 0; i < heats->count; i++) {
        const struct heat *h = &heats->items[i];
        if (!h->pair)
            head = i;
        if (h->no_unit)
            notice_add(notices, RULE_HEAT_UNITLESS, body_step_place(step, h->from, h->to),
                       words_of(post, st, h->from, h->to), SLICE(""));
        const struct heat *first = &heats->items[head];
        if (!h->pair || first->no_unit || heat_agrees(first, h))
            continue;
        size_t to = h->to + bracket_behind(step->text, first->from, h->to);
        notice_add(notices, RULE_HEAT_PAIR, body_step_place(step, first->from, to),
                   words_of(post, st, first->from, to), in_scale_of(a, first, h));
    }
}

static const struct step_time *
time_of(const struct schedule *s, const struct microwave_row *row)
{
    for (size_t i = 0; i < s->count; i++)
        if (s->steps[i].part == row->part && s->steps[i].step == row->step)
            return &s->steps[i];
    return NULL;
}

void
timing_judge(const struct judging *j, const struct microwave *m)
{
    struct arena *a = j->arena;
    const struct post *post = j->post;
    const struct schedule *s = j->schedule;
    struct notices *notices = j->notices;
    judge_total(a, &post->front, notices);
    judge_declared(a, post, s, notices);
    promise_judge(j);
    for (size_t i = 0; i < s->count; i++)
        judge_heats(a, post, &s->steps[i], notices);
    for (size_t i = 0; i < m->bare_count; i++) {
        const struct step_time *st = time_of(s, &m->bare[i]);
        if (st == NULL)
            continue;
        const struct duration *d = &st->marks.durations.items[m->bare[i].duration];
        notice_add(notices, RULE_MICROWAVE_POWER,
                   body_step_place(step_of(post, st), d->core_from, d->core_to),
                   words_of(post, st, d->core_from, d->core_to), SLICE(""));
    }
}
