#include "judge/health.h"

#include "judge/promise.h"
#include "read/words_listed.h"

/* the first promise of a text at or behind word `from`: its words at *at, *end */
static bool
find(const struct words *w, size_t from, size_t *at, size_t *end)
{
    enum { PASSED_MOST = 50 }; /* harmless uses passed over: no text may make this slow */
    if (!words_have(w, words_list(w, WORDS_HEALTH_PROMISED)))
        return false;
    for (size_t passed = 0; passed < PASSED_MOST; passed++) {
        size_t length = 0, best = SIZE_MAX;
        for (size_t k = 0; words_list(w, WORDS_HEALTH_PROMISED)[k] != NULL; k++) {
            size_t i = words_find(w, words_list(w, WORDS_HEALTH_PROMISED)[k], from,
                                  best == SIZE_MAX ? w->count : best);
            if (i == SIZE_MAX)
                continue;
            best = i;
            length = words_at(w, i, words_list(w, WORDS_HEALTH_PROMISED)[k]);
        }
        if (best == SIZE_MAX)
            return false;
        bool verb = word_is(&w->items[best], "healthy") || word_is(&w->items[best], "cures") ||
                    word_is(&w->items[best], "heals");
        size_t next = best + length;
        size_t near = best > 3 ? best - 3 : 0;
        from = best + 1;
        if ((verb && next < w->count && words_one_of(w, next, WORDS_HEALTH_OTHER_SENSE)) ||
            words_any(w, words_list(w, WORDS_HEALTH_DENIED), near, best, NULL) != NULL)
            continue;
        *at = best;
        *end = next;
        return true;
    }
    return false;
}

bool
health_promises(struct arena *a, const struct word_lists *lists, struct slice text)
{
    struct words w;
    size_t at, end;
    words_read(a, lists, text, &w);
    return find(&w, 0, &at, &end) || words_have(&w, words_list(&w, WORDS_HEALTH_PROMISED_BY_CLAIM));
}

static void
judge_said(const struct front_value *front_value, const struct words *w, struct notices *notices)
{
    size_t at, end;
    if (!find(w, 0, &at, &end))
        return;
    size_t from = w->items[at].from, to = w->items[end - 1].to;
    notice_add(notices, RULE_CLAIM_HEALTH, promise_place(front_value, from, to),
               slice_part(front_value->text, from, to), SLICE(""));
}

static void
judge_section(const struct body *body, const struct body_section *s, struct notices *notices)
{
    enum { REPORTED_MOST = 5 }; /* of one section: the writer has the picture by then */
    const struct words *w = &s->words;
    size_t at, end = 0;
    for (size_t n = 0; n < REPORTED_MOST && find(w, end, &at, &end); n++) {
        struct slice what = slice_part(s->text, w->items[at].from, w->items[end - 1].to);
        notice_add(notices, RULE_CLAIM_HEALTH, promise_place_in_body(body, what), what, SLICE(""));
    }
}

void
health_judge(struct arena *a, const struct post *post, struct notices *notices)
{
    const struct front_matter *f = &post->front;
    judge_said(&f->title, &post->title_words, notices);
    judge_said(&f->summary, &post->summary_words, notices);
    for (size_t i = 0; i < f->keywords.count; i++) {
        struct words w;
        words_read(a, post->range.lists, f->keywords.items[i].text, &w);
        judge_said(&f->keywords.items[i], &w, notices);
    }
    for (size_t i = 0; i < f->claims.count; i++)
        if (health_promises(a, post->range.lists, f->claims.items[i].text))
            notice_add(notices, RULE_CLAIM_HEALTH, f->claims.items[i].place,
                       f->claims.items[i].text, SLICE(""));
    judge_section(&post->body, &post->body.prose, notices);
    judge_section(&post->body, &post->body.notes, notices);
}
