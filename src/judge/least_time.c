#include "judge/least_time.h"

enum { QUOTES_MOST = 3 };

/* a stated duration that is spent, with its place in the method */
struct quote {
    const struct step_time *step;
    const struct duration *duration;
    size_t number; /* of the step, from 1, over all parts */
    double least;  /* s */
};

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

bool
least_time_exceeds(const struct schedule *s, double seconds)
{
    return s->stated && s->least > seconds * 1.05 + 1;
}

/* the longest stated durations, longest first */
static size_t
longest(const struct schedule *s, struct quote quotes[QUOTES_MOST])
{
    size_t count = 0;
    for (size_t k = 0; k < s->count; k++) {
        const struct durations *all = &s->steps[k].marks.durations;
        for (size_t i = 0; i < all->count; i++) {
            const struct duration *d = &all->items[i];
            struct quote q = {&s->steps[k], d, k + 1, d->seconds.low * d->times};
            if (d->part != DURATION_SPENT || q.least <= 0)
                continue;
            size_t at = count < QUOTES_MOST ? count++ : QUOTES_MOST;
            for (; at > 0 && quotes[at - 1].least < q.least; at--)
                if (at < QUOTES_MOST)
                    quotes[at] = quotes[at - 1];
            if (at < QUOTES_MOST)
                quotes[at] = q;
        }
    }
    return count;
}

struct slice
least_time_words(struct arena *a, const struct post *post, const struct schedule *s)
{
    struct text t = text_new(a);
    struct quote quotes[QUOTES_MOST];
    size_t count = longest(s, quotes);
    text_add_string(&t, "at least ");
    duration_write_words(&t, s->least);
    if (s->before.low > 0)
        text_addf(&t, ": “%.*s” in the list", SLICE_ARGS(s->before_said));
    for (size_t i = 0; i < count; i++) {
        const struct quote *q = &quotes[i];
        text_addf(&t, "%s“", i == 0 && !(s->before.low > 0) ? ": " : ", ");
        text_add(&t, words_of(post, q->step, q->duration->from, q->duration->to));
        text_addf(&t, "” in step %zu", q->number);
        if (q->duration->times > 1) {
            text_add_string(&t, ", ");
            text_add_number(&t, q->duration->times, 1);
            text_add_string(&t, " times");
        }
    }
    return text_slice(&t);
}
