#include "judge/promise.h"

#include "judge/least_time.h"
#include "read/time_span.h"

/* "two-minute noodles" are a food, "ten minutes of work" is not all of it */
static const char *const not_it[] = {
    "noodle*", "oats",   "rice",       "egg",       "eggs",       "steak",     "hands*",
    "active",  "prep*",  "of work",    "work",      "of prep*",   "of effort", "effort",
    "old",     "walk",   "of hands*",  "of active", "rest",       "soak",      "prove",
    "proof",   "rise",   "marinade",   "simmer",    "freeze",     "read",      "chill*",
    "ahead",   "before", "to prepare", "to put",    "to make up", NULL};
static const char *const leads[] = {
    "in",        "under",        "within", "in under",   "in only",    "in just",     "in about",
    "less than", "in less than", "takes",  "takes only", "takes just", "all done in", NULL};
static const char *const about_all_of_it[] = {
    "ready",     "table",    "done",   "made",  "dinner", "supper", "lunch", "meal",
    "breakfast", "start to", "on the", "takes", "cooked", "plate",  "whole", NULL};

enum { LONG = 6 * 3600 }; /* "24-hour focaccia" promises patience, not speed */

/* whether one of the leads ends right before word i */
static size_t
lead_before(const struct words *w, size_t i)
{
    size_t best = 0;
    for (size_t k = 0; leads[k] != NULL; k++) {
        size_t n = 1;
        for (const char *p = leads[k]; *p != '\0'; p++)
            n += *p == ' ';
        if (n > best && i >= n && words_at(w, i - n, leads[k]) == n)
            best = n;
    }
    return best;
}

static bool
promises(const struct words *w, size_t i, size_t end, const struct time_span *s, bool title)
{
    if (words_any(w, not_it, end, end + 1, NULL) != NULL)
        return false;
    bool noun = s->attributive && end < w->count && w->items[end].kind == WORD_LETTERS;
    if (noun)
        return title || words_any(w, about_all_of_it, end, end + 2, NULL) != NULL;
    if (lead_before(w, i) == 0)
        return false;
    return title || words_any(w, about_all_of_it, words_sentence_from(w, i),
                              words_sentence_to(w, i), NULL) != NULL;
}

double
promise_read(const struct words *w, bool title, size_t *from, size_t *to)
{
    for (size_t i = 0; i < w->count; i++) {
        struct time_span s;
        size_t n = time_span_may_begin(&w->items[i]) ? time_span_at(w, i, &s) : 0;
        if (n == 0)
            continue;
        if (!word_is(&w->items[i], "overnight") && promises(w, i, i + n, &s, title)) {
            *from = w->items[i].from;
            *to = w->items[i + n - 1].to;
            return s.seconds.high < LONG ? s.seconds.high : 0;
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

void
promise_judge(struct arena *a, const struct post *post, const struct schedule *s, bool title,
              struct notices *notices)
{
    const struct front_value *front_value = title ? &post->front.title : &post->front.summary;
    const struct words *w = title ? &post->title_words : &post->summary_words;
    size_t from = 0, to = 0;
    double seconds = promise_read(w, title, &from, &to);
    if (!(seconds > 0) || !least_time_exceeds(s, seconds))
        return;
    notice_add(notices, RULE_TIME_TITLE, promise_place(front_value, from, to),
               slice_part(front_value->text, from, to), least_time_words(a, post, s));
}
