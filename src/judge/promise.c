#include "judge/promise.h"

#include "judge/least_time.h"
#include "read/time_span.h"
#include "read/words_listed.h"

enum { LONG = 6 * 3600 }; /* "24-hour focaccia" promises patience, not speed */

/* where a stretch of time stands in a text */
struct stretch {
    const struct cooking *cooking;
    const struct words *w;
    size_t from, to; /* words */
    struct time_span span;
    enum promise_in in;
};

static const char *const *
list(const struct stretch *s, const char *id)
{
    return cooking_phrases(s->cooking, id);
}

static bool
sentence_has(const struct stretch *s, const char *id)
{
    return words_any(s->w, list(s, id), words_sentence_from(s->w, s->from),
                     words_sentence_to(s->w, s->from), NULL) != NULL;
}

/* whether one of the leads ends right before the stretch */
static bool
is_led(const struct stretch *s)
{
    const char *const *leads = list(s, "promise-leads");
    for (size_t k = 0; leads[k] != NULL; k++) {
        size_t n = 1;
        for (const char *p = leads[k]; *p != '\0'; p++)
            n += *p == ' ';
        if (s->from >= n && words_at(s->w, s->from - n, leads[k]) == n)
            return true;
    }
    return false;
}

/* "the dough is ready in an hour": of a part, not of all of it */
static bool
is_of_a_part(const struct stretch *s)
{
    const struct words *w = s->w;
    const size_t from = words_sentence_from(w, s->from);
    for (size_t i = from + 1; i < s->from; i++)
        if (words_one_of(w, i, WORDS_TIME_VERBS) && w->items[i - 1].kind == WORD_LETTERS &&
            !words_one_of(w, i - 1, WORDS_TIME_VERBS))
            return words_any(w, list(s, "promise-subjects"), i - 1, i, NULL) == NULL;
    return false;
}

/* "a 20-minute bake", "15 min shortbread": said of a thing */
static bool
is_of_a_thing(const struct stretch *s)
{
    const struct words *w = s->w;
    if (s->to >= w->count || w->items[s->to].kind != WORD_LETTERS ||
        words_one_of(w, s->to, WORDS_SMALL_BEHIND_TIMES) ||
        w->items[s->to].sentence != w->items[s->from].sentence)
        return false;
    return s->span.attributive || w->items[s->from].kind == WORD_NUMBER;
}

static bool
is_promise(const struct stretch *s)
{
    const struct words *w = s->w;
    if (words_any(w, list(s, "promise-not"), s->to, s->to + 1, NULL) != NULL)
        return false;
    if (is_of_a_thing(s)) {
        const bool meal = words_any(w, list(s, "promise-meals"), s->to, s->to + 3, NULL) != NULL;
        return s->in == PROMISE_TITLE ||
               (s->span.attributive && (meal || sentence_has(s, "promise-quick")));
    }
    if (words_any(w, list(s, "promise-behind"), s->to, s->to + 3, NULL) != NULL)
        return s->in != PROMISE_PROSE || !is_of_a_part(s);
    if (!is_led(s))
        return false;
    return s->in == PROMISE_TITLE ||
           (sentence_has(s, "promise-about") && (s->in != PROMISE_PROSE || !is_of_a_part(s)));
}

double
promise_read(const struct cooking *c, const struct words *w, enum promise_in in, size_t *from,
             size_t *to)
{
    if (!words_have(w, words_list(w, WORDS_TIME_UNITS)))
        return 0;
    for (size_t i = 0; i < w->count; i++) {
        struct stretch s = {.cooking = c, .w = w, .from = i, .in = in};
        struct span minutes;
        size_t n = time_span_at(w, i, &s.span);
        if (n == 0 && (n = words_range(w, WORDS_PROMISED_TIMES, i, &minutes)) > 0)
            s.span = (struct time_span){.seconds = span_scale(minutes, 60), .unit = 3600};
        s.to = i + n;
        if (n == 0)
            continue;
        if (!s.span.unnumbered && is_promise(&s)) {
            *from = w->items[i].from;
            *to = w->items[i + n - 1].to;
            return s.span.seconds.high < LONG ? s.span.seconds.high : 0;
        }
        i += n - 1;
    }
    return 0;
}

struct place
promise_place(const struct front_value *front_value, size_t from, size_t to)
{
    struct place place = front_value->place;
    size_t length = slice_characters(front_value->text);
    if (place.column == 0 || place.length != length ||
        slice_find_byte(front_value->text, '\n', 0) != SIZE_MAX)
        return place;
    place.column += (uint32_t)slice_characters(slice_part(front_value->text, 0, from));
    place.length = (uint32_t)slice_characters(slice_part(front_value->text, from, to));
    return place;
}

static void
judge_value(const struct judging *j, const struct front_value *value, const struct words *w,
            enum promise_in in)
{
    size_t from = 0, to = 0;
    const double seconds = promise_read(&j->tables->cooking, w, in, &from, &to);
    if (seconds > 0 && least_time_exceeds(j->schedule, seconds))
        notice_add(j->notices, RULE_TIME_TITLE, promise_place(value, from, to),
                   slice_part(value->text, from, to),
                   least_time_words(j->arena, j->post, j->schedule));
}

/* the first promise of the prose that is not kept; "last time it took" promises nothing */
static void
judge_prose(const struct judging *j)
{
    const struct passages *all = &j->clauses->passages;
    for (size_t i = 0; i < all->count; i++) {
        const struct passage *p = &all->items[i];
        size_t from = 0, to = 0;
        if (p->kind != PASSAGE_PROSE ||
            words_have(p->words, cooking_phrases(&j->tables->cooking, "remark")))
            continue;
        const double seconds =
            promise_read(&j->tables->cooking, p->words, PROMISE_PROSE, &from, &to);
        if (!(seconds > 0) || !least_time_exceeds(j->schedule, seconds))
            continue;
        notice_add(j->notices, RULE_TIME_TITLE, passages_place(p, from, to),
                   slice_part(p->text, from, to), least_time_words(j->arena, j->post, j->schedule));
        return;
    }
}

void
promise_judge(const struct judging *j)
{
    judge_value(j, &j->post->front.title, &j->post->title_words, PROMISE_TITLE);
    judge_value(j, &j->post->front.summary, &j->post->summary_words, PROMISE_SUMMARY);
    if (j->clauses != NULL)
        judge_prose(j);
}

struct place
promise_place_in_body(const struct body *body, struct slice what)
{
    struct slice file = body->source;
    struct place place = {0};
    size_t end = slice_find(file, "\n---", 0), line_from = 0;
    if (end == SIZE_MAX || what.length == 0)
        return place;
    for (size_t i = end + 1; i + what.length <= file.length; i++) {
        if (file.at[i] != what.at[0] || !slice_equal(slice_part(file, i, i + what.length), what))
            continue;
        place.line = 1;
        for (size_t k = 0; k < i; k++)
            if (file.at[k] == '\n') {
                place.line++;
                line_from = k + 1;
            }
        place.column = 1 + (uint32_t)slice_characters(slice_part(file, line_from, i));
        place.length = (uint32_t)slice_characters(what);
        return place;
    }
    return place;
}
