#include "read/duration_times.h"

#include "read/words_listed.h"

/* "fry in two batches": how often what stands near it is gone through */
struct goes {
    size_t at, end; /* words */
    double least, most;
};

/* the word behind which no side and no batch can belong to a duration any more */
static size_t
last_concerned(const struct words *w, const struct durations *all, const struct placed *places)
{
    size_t end = all->count > 0 ? places[all->count - 1].to + SENTENCE_MOST : 0;
    return end < w->count ? end : w->count;
}

static bool
splits(const struct word *w)
{
    return word_is(w, ";") || word_is(w, "then");
}

/* whether words a and b stand in one clause, a before b */
static bool
one_clause(const struct words *w, size_t a, size_t b)
{
    if (w->items[a].sentence != w->items[b].sentence || b > a + SENTENCE_MOST)
        return false;
    for (size_t i = a; i < b; i++)
        if (splits(&w->items[i]))
            return false;
    return true;
}

static bool
counts(const struct duration *d, const struct placed *p)
{
    return !p->whole && (d->part == DURATION_SPENT || d->part == DURATION_INSTEAD);
}

/* the words of a side that stand at word i: "per side", "on each side" */
static size_t
side_at(const struct words *w, size_t i)
{
    const char *phrase = words_any(w, words_list(w, WORDS_EACH_SIDE), i, i + 1, NULL);
    return phrase != NULL ? words_phrase(w, i, phrase) : 0;
}

static void
double_it(struct duration *d)
{
    d->times *= 2;
    d->times_most *= 2;
}

/* a side that is said apart from its duration belongs to the nearest of its clause, the one before
 * it first */
static void
side_apart(const struct words *w, struct durations *all, const struct placed *places, size_t i)
{
    size_t best = SIZE_MAX;
    for (size_t k = 0; k < all->count; k++) {
        if (!counts(&all->items[k], &places[k]))
            continue;
        if (places[k].to <= i && one_clause(w, places[k].to - 1, i))
            best = k;
        else if (places[k].from > i && best == SIZE_MAX && one_clause(w, i, places[k].from))
            best = k;
    }
    if (best != SIZE_MAX && all->items[best].times == 1)
        double_it(&all->items[best]);
}

/* "there will be four trays": how often, where the text says so; else 2 */
static double
lots_told(const struct words *w)
{
    for (size_t i = 0; i + 1 < w->count; i++) {
        struct span count;
        const size_t n = time_span_count(w, i, &count);
        if (n > 0 && i + n < w->count && words_one_of(w, i + n, WORDS_LOADS) && count.low >= 2)
            return count.low;
    }
    return 2;
}

/* "repeat with the rest", "one tray at a time": the time before it, else that behind it in its
 * sentence, is spent again */
static void
same_again(const struct words *w, struct durations *all, const struct placed *places, size_t i)
{
    size_t best = SIZE_MAX;
    for (size_t k = 0; k < all->count; k++)
        if (counts(&all->items[k], &places[k]) &&
            (places[k].to <= i ||
             (best == SIZE_MAX && w->items[places[k].from].sentence == w->items[i].sentence)))
            best = k;
    if (best == SIZE_MAX || all->items[best].times != 1)
        return;
    all->items[best].times = all->items[best].times_most = lots_told(w);
}

static void
sides_read(const struct words *w, struct durations *all, struct placed *places)
{
    size_t end = last_concerned(w, all, places);
    for (size_t i = 0; i < end; i++) {
        if (w->items[i].kind != WORD_LETTERS)
            continue;
        if (words_any(w, words_list(w, WORDS_SAME_AGAIN), i, i + 1, NULL) != NULL) {
            same_again(w, all, places, i);
            continue;
        }
        size_t n = side_at(w, i);
        if (n == 0)
            continue;
        size_t adjacent = SIZE_MAX;
        for (size_t k = 0; k < all->count; k++)
            if (places[k].to == i || (places[k].to + 1 == i && word_is(&w->items[i - 1], "(")))
                adjacent = k;
        if (adjacent != SIZE_MAX) {
            places[adjacent].to = i + n;
            if (counts(&all->items[adjacent], &places[adjacent]))
                double_it(&all->items[adjacent]);
        } else if (!word_is(&w->items[i], "a")) {
            side_apart(w, all, places, i);
        }
        i += n - 1;
    }
}

/* "in two batches", "a third at a time", "3 batches" */
static size_t
goes_at(const struct words *w, size_t i, struct goes *out)
{
    struct span count;
    size_t n = words_at(w, i, "in");
    size_t m = n > 0 ? time_span_count(w, i + n, &count) : 0;
    if (m > 0 && i + n + m < w->count && words_one_of(w, i + n + m, WORDS_BATCHES)) {
        *out = (struct goes){i, i + n + m + 1, count.low, count.high};
        return n + m + 1;
    }
    n = words_range(w, WORDS_PARTS_AT_A_TIME, i, &count);
    for (size_t j = i + n; n > 0 && j < w->count && j < i + n + 6; j++)
        if (words_at(w, j, "at a time") > 0) {
            *out = (struct goes){i, j + 3, count.mid, count.mid};
            return j + 3 - i;
        }
    return 0;
}

/* a clause behind the batches that goes on with the same pieces: "then turn and fry 1 more" */
static bool
goes_on(const struct words *w, const struct placed *p, const struct duration *d)
{
    size_t from = p->from, most = words_sentence_from(w, p->from);
    while (from > most && !splits(&w->items[from - 1]))
        from--;
    return d->further ||
           words_any(w, words_list(w, WORDS_SAME_PIECES), from, p->to + 4, NULL) != NULL;
}

static void
multiply(const struct words *w, struct durations *all, struct placed *places,
         const struct goes *goes)
{
    uint32_t sentence = w->items[goes->at].sentence;
    bool any = false;
    for (size_t k = 0; k < all->count; k++) {
        struct duration *d = &all->items[k];
        uint32_t own = w->items[places[k].first].sentence;
        if (places[k].first > goes->end + SENTENCE_MOST)
            break;
        if (places[k].to + SENTENCE_MOST < goes->at)
            continue;
        if (!counts(d, &places[k]) || own < sentence || own > sentence + 1 ||
            (own > sentence && any))
            continue;
        bool beside = places[k].first < goes->at ? one_clause(w, places[k].first, goes->at)
                                                 : one_clause(w, goes->at, places[k].first) || !any;
        if (!beside && (places[k].first < goes->at || !goes_on(w, &places[k], d)))
            continue;
        any = any || own == sentence;
        d->times *= goes->least;
        d->times_most *= goes->most;
        if (places[k].to == goes->at)
            places[k].to = goes->end;
    }
}

/* "3 x 10 minutes", "two lots of 5 minutes" */
static void
lots_before(const struct words *w, struct duration *d, struct placed *p)
{
    for (size_t k = 0; words_list(w, WORDS_TIMES_OF)[k] != NULL; k++) {
        size_t n = k == 0 ? 1 : 2;
        struct span count;
        if (p->from < n + 1 || words_at(w, p->from - n, words_list(w, WORDS_TIMES_OF)[k]) != n ||
            time_span_count(w, p->from - n - 1, &count) != 1 || count.low < 2)
            continue;
        p->from -= n + 1;
        d->times *= count.low;
        d->times_most *= count.high;
        return;
    }
}

void
duration_times_read(const struct words *w, struct durations *all, struct placed *places)
{
    if (all->count == 0)
        return;
    for (size_t k = 0; k < all->count; k++)
        lots_before(w, &all->items[k], &places[k]);
    if (!words_have(w, words_list(w, WORDS_REPEATING)))
        return;
    sides_read(w, all, places);
    size_t end = last_concerned(w, all, places);
    for (size_t i = 0; i < end; i++) {
        struct goes goes;
        size_t n = goes_at(w, i, &goes);
        if (n == 0)
            continue;
        if (goes.least >= 1)
            multiply(w, all, places, &goes);
        i += n - 1;
    }
}
