#include "judge/pieces.h"

#include <math.h>

#include "read/time_span.h"
#include "read/words_listed.h"

/* "into 12 bars" in the clause: the count; 0: no such thing */
static double
count_in(const struct clause *c, size_t *from, size_t *to)
{
    const struct words *w = c->passage->words;
    if (c->verb == SIZE_MAX || c->negated || c->remark || c->on == ACTS_ON_NAMED ||
        !words_one_of(w, c->verb, WORDS_CUTTING))
        return 0;
    for (size_t i = c->verb + 1; i + 2 < c->end + 1 && i + 1 < w->count; i++) {
        struct span count;
        if (!word_is(&w->items[i], "into") && !word_is(&w->items[i], "in") &&
            !word_is(&w->items[i], "out")) /* "stamp out 18 rounds" */
            continue;
        const size_t n = time_span_count(w, i + 1, &count);
        size_t at = i + 1 + n;
        while (at < c->end && words_one_of(w, at, WORDS_PIECE_SIZES))
            at++;
        const bool ends = n > 0 && at == i + 1 + n && word_is(&w->items[i], "into") &&
                          (at >= c->end || w->items[at].kind == WORD_MARK); /* "cut into 12" */
        if (n == 0 || (!ends && (at >= c->end || !words_one_of(w, at, WORDS_PIECES))) ||
            count.low < count.high || count.mid < 2)
            continue;
        *from = w->items[c->verb].from;
        *to = w->items[ends ? at - 1 : at].to;
        return count.mid;
    }
    return 0;
}

static bool
is_eaters(struct slice thing)
{
    return slice_find(thing, "serving", 0) != SIZE_MAX ||
           slice_find(thing, "portion", 0) != SIZE_MAX ||
           slice_find(thing, "people", 0) != SIZE_MAX || thing.length == 0;
}

/* what the front matter says of it; empty: they agree, or nothing can be held against it */
static struct slice
said_otherwise(const struct judging *j, double count)
{
    const struct dish *d = j->dish;
    struct text t = text_new(j->arena);
    if (d->yield_kind == YIELD_COUNT && !is_eaters(d->yield_thing) &&
        d->yield.low == d->yield.high) {
        if (fabs(d->yield.mid - count) < 0.5)
            return SLICE("");
        text_addf(&t, "the yield is %.*s", SLICE_ARGS(j->post->front.yield.text));
        return text_slice(&t);
    }
    if (!d->portions_known || d->portions.low != d->portions.high || d->portions.mid < 1 ||
        (d->yield_kind != YIELD_NONE && d->yield_kind != YIELD_COUNT) ||
        fmod(count, d->portions.mid) < 1e-9)
        return SLICE("");
    text_add_string(&t, "it serves ");
    text_add_number(&t, d->portions.mid, 1);
    return text_slice(&t);
}

void
pieces_judge(const struct judging *j)
{
    const struct clauses *all = j->clauses;
    for (size_t i = all->count; i > 0; i--) {
        const struct clause *c = &all->items[i - 1];
        size_t from = 0, to = 0;
        const double count = c->passage->kind == PASSAGE_STEP ? count_in(c, &from, &to) : 0;
        if (count == 0)
            continue;
        if (words_find(c->passage->words, "each", c->from, c->end) != SIZE_MAX)
            return; /* so many of each: how many there are, no clause says */
        const struct slice more = said_otherwise(j, count);
        if (more.length > 0)
            notice_add(j->notices, RULE_PIECES_MISFIT, passages_place(c->passage, from, to),
                       slice_part(c->passage->text, from, to), more);
        return;
    }
}
