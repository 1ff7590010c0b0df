#include "reckon/schedule.h"

#include "read/words_listed.h"

/* s; nobody stands at the stove for longer, whatever the verb: common practice, no source */
static const double hands_busy_most = 4 * 3600;

/* seconds of one step by what they are */
struct sums {
    struct span all, attended, resting, cooking;
};

/* where the next step may begin */
struct clock {
    struct span workers; /* when the cook's hands are free beside it */
    struct span main;    /* when that step is done; nothing says that the next waits for others */
    struct span side;    /* when what runs beside is done */
    struct span end;     /* when all of them are done */
    const struct step_time *main_step; /* the last that nothing says runs beside another */
    bool aside;                        /* the step before runs beside that */
};

static struct span
later(struct span a, struct span b)
{
    return span_make(a.low > b.low ? a.low : b.low, a.mid > b.mid ? a.mid : b.mid,
                     a.high > b.high ? a.high : b.high);
}

static struct span
all_goes(const struct duration *d)
{
    return span_make(d->seconds.low * d->times, d->seconds.mid * (d->times + d->times_most) / 2,
                     d->seconds.high * d->times_most);
}

/* seconds of the i-th duration and of what may be done instead of it */
static struct span
with_alternatives(const struct step_marks *m, size_t i)
{
    struct span s = all_goes(&m->durations.items[i]);
    size_t word = words_byte(&m->words, m->durations.items[i].from);
    size_t from = words_sentence_from(&m->words, word), to = words_sentence_to(&m->words, word);
    for (size_t k = i + 1; k < m->durations.count && m->durations.items[k].part == DURATION_INSTEAD;
         k++) {
        s = span_cover(s, all_goes(&m->durations.items[k]));
        /* "(5 min if you like it strong)" leaves the choice, not the time, to the cook */
        size_t other = words_byte(&m->words, m->durations.items[k].from);
        to = other < to ? other : to;
    }
    if (words_any(&m->words, words_list(&m->words, WORDS_LEFT_TO_THE_COOK), from, to, NULL) !=
            NULL ||
        word_is(&m->words.items[from], "if"))
        s = span_make(0, s.mid, s.high);
    return s;
}

static void
add(struct sums *sums, struct span s, enum activity activity)
{
    sums->all = span_add(sums->all, s);
    if (activity == ACTIVITY_RESTING)
        sums->resting = span_add(sums->resting, s);
    else if (activity == ACTIVITY_COOKING)
        sums->cooking = span_add(sums->cooking, s);
    else
        sums->attended = span_add(sums->attended, s);
}

/* "while the rice cooks": the verb, when there is one; `from` is behind "while" */
static enum activity
while_verb(const struct words *w, size_t from)
{
    size_t to = words_sentence_to(w, from);
    for (size_t i = from; i < to && i < from + 9 && !word_is(&w->items[i], ","); i++) {
        enum activity found = activity_of(w, i);
        if (words_at(w, i, "in the oven") > 0)
            return ACTIVITY_COOKING;
        if (words_at(w, i, "in the fridge") > 0 || words_at(w, i, "in the freezer") > 0)
            return ACTIVITY_RESTING;
        if (found != ACTIVITY_NONE && !words_one_of(w, i, WORDS_THINGS_NOT_ACTS))
            return found;
    }
    return ACTIVITY_NONE;
}

/* whether the words at i say that what follows runs beside what came before, whose last activity
 * is `last`: "while it cools" runs beside no baking */
static bool
beside_at(const struct words *w, size_t i, enum activity last)
{
    if (words_any(w, words_list(w, WORDS_MEANWHILE), i, i + 1, NULL) != NULL &&
        !word_is(&w->items[i], "while"))
        return true;
    if (!word_is(&w->items[i], "while") && !word_is(&w->items[i], "whilst") &&
        !word_is(&w->items[i], "as") && words_at(w, i, "during the") == 0)
        return false;
    if (i + 1 >= w->count || word_is(&w->items[i + 1], "still"))
        return false;
    if (words_at(w, i, "during the last") > 0 || words_at(w, i, "during the final") > 0)
        return true;
    enum activity verb = while_verb(w, i + 1);
    return verb != ACTIVITY_NONE &&
           (verb == last || (verb != ACTIVITY_RESTING && last != ACTIVITY_RESTING));
}

/* the word from which on the text runs beside what came before it; SIZE_MAX: none does. Looks at
 * the beginnings of sentences, and for "while you" at the middle. */
static size_t
beside_from(const struct words *w, enum activity last)
{
    static const char *const anywhere[] = {"and meanwhile", "while you", NULL};
    size_t until = SIZE_MAX;
    if (words_next(w, anywhere, 0, &until) == NULL)
        until = SIZE_MAX;
    for (size_t i = 0; i < w->count; i++) {
        const struct word *before = &w->items[i > 0 ? i - 1 : 0];
        bool begins = i == 0 || before->sentence != w->items[i].sentence ||
                      (before->kind == WORD_MARK && (word_is(before, ":") || word_is(before, ";")));
        bool second = i == 1 && w->items[0].kind == WORD_MARK;
        if (((begins || second) && beside_at(w, i, last)) || i == until)
            return i;
        if (begins && i + 6 < w->count && words_find(w, "meanwhile", i, i + 6) != SIZE_MAX)
            return i;
    }
    return SIZE_MAX;
}

/* the first sentence behind `from` that goes back to what ran on */
static size_t
resumes_at(const struct words *w, size_t from)
{
    for (size_t i = words_sentence_to(w, from); i < w->count; i = words_sentence_to(w, i))
        if (words_one_of(w, i, WORDS_RESUMING) || words_at(w, i, "to serve") > 0)
            return i;
    return w->count;
}

/* "in my old oven it took an hour" */
static bool
is_told(const struct words *w, const struct duration *d, const struct cooking *cooking)
{
    const size_t i = words_byte(w, d->core_from);
    return words_any(w, cooking_phrases(cooking, "remark"), words_sentence_from(w, i),
                     words_sentence_to(w, i), NULL) != NULL;
}

static void
mark(struct arena *a, const struct step *step, const struct cooking *cooking, struct step_marks *m)
{
    m->words = step->words;
    durations_find(a, &m->words, &m->durations);
    heats_find(a, &m->words, &m->heats);
    heat_powers_find(a, &m->words, &m->powers);
    m->activities = arena_take_array(a, m->durations.count + 1, sizeof *m->activities);
    for (size_t i = 0; i < m->durations.count; i++) {
        struct duration *d = &m->durations.items[i];
        if (cooking != NULL && is_told(&m->words, d, cooking))
            d->part = DURATION_INSIDE;
        size_t first = words_byte(&m->words, d->core_from),
               end = words_byte(&m->words, d->core_to - 1);
        m->activities[i] = activity_near(&m->words, first, end + 1);
        if (m->activities[i] == ACTIVITY_ATTENDED && d->seconds.low >= hands_busy_most)
            m->activities[i] = ACTIVITY_RESTING;
    }
}

/* adds up a step; what runs beside the rest within it counts only where it lasts longer. Returns
 * how long the step takes. */
static struct span
add_up(struct step_time *st, size_t beside, struct sums *sums)
{
    const struct step_marks *m = &st->marks;
    size_t resumes = beside == SIZE_MAX ? SIZE_MAX : resumes_at(&m->words, beside);
    struct span before = {0}, staged = {0}, after = {0};
    for (size_t i = 0; i < m->durations.count; i++) {
        if (m->durations.items[i].part != DURATION_SPENT)
            continue;
        struct span s = with_alternatives(m, i);
        size_t word = words_byte(&m->words, m->durations.items[i].from);
        struct span *into = word < beside || beside == SIZE_MAX ? &before
                            : word < resumes                    ? &staged
                                                                : &after;
        *into = span_add(*into, s);
        add(sums, s, m->activities[i]);
        st->stated = true;
    }
    return span_add(later(before, staged), after);
}

static enum activity
last_activity(const struct step_time *st)
{
    for (size_t i = st->marks.durations.count; i > 0; i--)
        if (st->marks.durations.items[i - 1].part == DURATION_SPENT)
            return st->marks.activities[i - 1];
    return ACTIVITY_NONE;
}

static void
add_to(struct schedule *out, const struct sums *sums)
{
    out->attended = span_add(out->attended, sums->attended);
    out->resting = span_add(out->resting, sums->resting);
    out->cooking = span_add(out->cooking, sums->cooking);
}

static bool
says(const struct words *w, const struct word *word)
{
    for (size_t i = 0; i < w->count; i++)
        if (slice_equal(w->items[i].folded, word->folded))
            return true;
    return false;
}

/* "Meanwhile boil the pasta. Drain the pasta and toss": the step goes on with what runs beside,
 * by a word of its first ones that the step before has and the one that both run beside has not */
static bool
goes_on_aside(const struct step_time *st, const struct step_time *before, const struct clock *clock)
{
    enum { WORDS_MOST = 8, LETTERS_LEAST = 4 };
    const struct words *w = &st->marks.words;
    bool aside = false;
    if (!clock->aside || clock->main_step == NULL)
        return false;
    for (size_t i = 0; i < w->count && i < WORDS_MOST && w->items[i].sentence == 0; i++) {
        const struct word *word = &w->items[i];
        if (word->kind != WORD_LETTERS || word->folded.length < LETTERS_LEAST ||
            activity_of(w, i) != ACTIVITY_NONE || words_one_of(w, i, WORDS_CLAUSE_SEPARATORS) ||
            words_one_of(w, i, WORDS_OBJECT_PREPOSITIONS) ||
            words_one_of(w, i, WORDS_OBJECT_PRONOUNS))
            continue;
        if (says(&clock->main_step->marks.words, word))
            return false;
        aside = aside || says(&before->marks.words, word);
    }
    return aside;
}

static void
time_step(struct step_time *st, const struct step_time *before, struct clock *clock,
          struct schedule *out)
{
    struct sums sums = {0};
    enum activity last = before != NULL ? last_activity(before) : ACTIVITY_NONE;
    size_t beside = beside_from(&st->marks.words, last);
    st->beside = before != NULL && beside <= 1;
    struct span takes = add_up(st, st->beside ? SIZE_MAX : beside, &sums);
    st->attended = sums.attended;
    st->unattended = span_add(sums.resting, sums.cooking);
    const bool aside = !st->beside && before != NULL && goes_on_aside(st, before, clock);
    /* the shortest way does not wait for what ran beside */
    st->start =
        st->beside ? clock->workers : span_make(clock->main.low, clock->end.mid, clock->end.high);
    st->end = span_add(st->start, takes);
    if (aside) {
        st->start.low = clock->side.low;
        st->end = span_add(st->start, takes);
    }
    if (!st->beside && !aside) {
        clock->workers = st->start;
        clock->main = st->end;
        clock->main_step = st;
    } else {
        clock->workers = span_add(clock->workers, st->attended);
        clock->side = st->end;
    }
    clock->aside = st->beside || aside;
    clock->end = later(clock->end, st->end);
    out->stated = out->stated || st->stated;
    add_to(out, &sums);
}

static bool
spends(const struct step_marks *m)
{
    for (size_t i = 0; i < m->durations.count; i++)
        if (m->durations.items[i].part == DURATION_SPENT)
            return true;
    return false;
}

/* a step that says "repeat with the rest" and no time of its own: what the step before it fries
 * and bakes, not what rests there, is done once more */
static void
mind_repeats(const struct step_time *st, struct step_time *before)
{
    const struct words *w = &st->marks.words;
    if (spends(&st->marks) || !words_have(w, words_list(w, WORDS_SAME_AGAIN)))
        return;
    for (size_t i = 0; i < before->marks.durations.count; i++) {
        struct duration *d = &before->marks.durations.items[i];
        if (d->part != DURATION_SPENT || before->marks.activities[i] == ACTIVITY_RESTING)
            continue;
        d->times *= 2;
        d->times_most *= 2;
    }
}

/* finds what each step states, before any is timed: one may say that another is done again */
static void
mark_all(struct arena *a, const struct body *body, const struct cooking *cooking,
         struct schedule *out)
{
    size_t n = 0;
    for (size_t p = 0; p < body->part_count; p++)
        for (size_t s = 0; s < body->parts[p].count; s++, n++) {
            struct step_time *st = &out->steps[n];
            st->part = p;
            st->step = s;
            mark(a, &body->parts[p].steps[s], cooking, &st->marks);
            if (s > 0)
                mind_repeats(st, st - 1);
        }
}

/* a part that needs the others done: "To assemble" */
static bool
brings_together(struct arena *a, const struct body *body, struct slice name)
{
    struct words w;
    words_read(a, body->prose.words.lists, name, &w);
    return words_have(&w, words_list(&w, WORDS_PARTS_LAST));
}

void
schedule_read(struct arena *a, const struct body *body, const struct cooking *cooking,
              struct schedule *out)
{
    *out = (struct schedule){0};
    for (size_t p = 0; p < body->part_count; p++)
        out->count += body->parts[p].count;
    out->steps = arena_take_array(a, out->count + 1, sizeof *out->steps);
    struct clock clock = {0};
    size_t n = 0;
    mark_all(a, body, cooking, out);
    for (size_t p = 0; p < body->part_count; p++) {
        double began = clock.end.low;
        clock.main = clock.end;
        for (size_t s = 0; s < body->parts[p].count; s++, n++) {
            struct step_time *st = &out->steps[n];
            time_step(st, n > 0 ? st - 1 : NULL, &clock, out);
        }
        double own = clock.end.low - began;
        if (p > 0 && brings_together(a, body, body->parts[p].name))
            out->least += own;
        else if (own > out->least)
            out->least = own;
    }
    out->total = clock.end;
}

/* whether a step states a wait as long: then the line only says what is done there */
static bool
steps_wait(const struct schedule *s, double seconds)
{
    for (size_t k = 0; k < s->count; k++) {
        const struct step_marks *m = &s->steps[k].marks;
        for (size_t i = 0; i < m->durations.count; i++)
            if (m->durations.items[i].part == DURATION_SPENT &&
                m->activities[i] == ACTIVITY_RESTING &&
                m->durations.items[i].seconds.high >= seconds)
                return true;
    }
    return false;
}

void
schedule_add_lines(struct arena *a, const struct dish *d, const struct cooking *cooking,
                   struct schedule *s)
{
    const char *const *done = cooking_phrases(cooking, "done-before");
    for (size_t i = 0; i < d->count; i++) {
        const struct words *w = d->ingredients[i].words;
        struct durations found = {0};
        if (d->ingredients[i].optional || !words_have(w, done))
            continue;
        durations_find(a, w, &found);
        for (size_t k = 0; k < found.count; k++) {
            const struct duration *one = &found.items[k];
            if (one->part == DURATION_STORAGE || one->seconds.low <= s->before.low)
                continue;
            s->before = one->seconds;
            s->before_said = slice_part(d->ingredients[i].line.text, one->from, one->to);
        }
    }
    if (s->before.low <= 0 || steps_wait(s, s->before.low)) {
        s->before = span_exact(0);
        return;
    }
    s->least += s->before.low;
    s->total = span_add(s->total, s->before);
    s->resting = span_add(s->resting, s->before);
    s->stated = true;
}
