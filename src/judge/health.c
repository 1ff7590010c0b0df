#include "judge/health.h"

#include "judge/promise.h"
#include "read/words.h"

static const char *const promises[] = {"healthy",
                                       "healthier",
                                       "healthiest",
                                       "good for you",
                                       "better for you",
                                       "good for your gut",
                                       "gut healing",
                                       "gut friendly",
                                       "heals",
                                       "healing",
                                       "cures",
                                       "detox*",
                                       "superfood*",
                                       "immune boosting",
                                       "boosts immunity",
                                       "boost your immun*",
                                       "boosts your immun*",
                                       "immunity boost*",
                                       "anti inflammatory",
                                       "fat burning",
                                       "fat busting",
                                       "lose weight",
                                       "weight loss",
                                       "slimming",
                                       "safe for everyone",
                                       "safe for all",
                                       "suitable for everyone",
                                       "suits everyone",
                                       "anyone can eat",
                                       "everyone can eat",
                                       "guilt free",
                                       "clean eating",
                                       "miracle",
                                       "medicinal",
                                       "lowers cholesterol",
                                       "lower cholesterol",
                                       "lowers blood pressure",
                                       "prevents disease",
                                       "prevents cancer",
                                       "fights cancer",
                                       "prevents illness",
                                       "prevents bloating",
                                       "beats bloating",
                                       "no more bloating",
                                       "symptom free",
                                       "treats ibs",
                                       "treats bloating",
                                       "soothes your gut",
                                       "soothes the gut",
                                       "aids digestion",
                                       "good for digestion",
                                       "hypoallergenic",
                                       "allergy safe",
                                       "safe for allergies",
                                       "will not upset",
                                       "won't upset",
                                       "never upsets",
                                       "health benefits",
                                       "health giving",
                                       "cleanses your",
                                       "liver cleanse",
                                       "anti ageing",
                                       "anti aging",
                                       "nourishes your",
                                       "safe for coeliacs and everyone",
                                       NULL};

/* what follows, and makes other sense of it: "a healthy pinch", "the salmon cures overnight" */
static const char *const other_sense[] = {
    "pinch", "handful",  "dollop",    "glug", "splash",   "amount",     "dose",  "drizzle",
    "slick", "coating",  "grating",   "heap", "appetite", "leaves",     "plant", "starter",
    "scoop", "spoonful", "overnight", "in",   "for",      "skepticism", NULL};
/* before it: "not healthy", "no claim to be healthy" */
static const char *const denials[] = {"not",    "isn't",   "no",     "never", "nor",
                                      "hardly", "neither", "aren't", NULL};

/* the first promise of a text at or behind word `from`: its words at *at, *end */
static bool
find(const struct words *w, size_t from, size_t *at, size_t *end)
{
    enum { PASSED_MOST = 50 }; /* harmless uses passed over: no text may make this slow */
    if (!words_have(w, promises))
        return false;
    for (size_t passed = 0; passed < PASSED_MOST; passed++) {
        size_t length = 0, best = SIZE_MAX;
        for (size_t k = 0; promises[k] != NULL; k++) {
            size_t i = words_find(w, promises[k], from, best == SIZE_MAX ? w->count : best);
            if (i == SIZE_MAX)
                continue;
            best = i;
            length = words_at(w, i, promises[k]);
        }
        if (best == SIZE_MAX)
            return false;
        bool verb = word_is(&w->items[best], "healthy") || word_is(&w->items[best], "cures") ||
                    word_is(&w->items[best], "heals");
        size_t next = best + length;
        size_t near = best > 3 ? best - 3 : 0;
        from = best + 1;
        if ((verb && next < w->count && word_among(&w->items[next], other_sense)) ||
            words_any(w, denials, near, best, NULL) != NULL)
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
    static const char *const alone[] = {"cure*", "heal*", "clean", "nourishing", "safe for*", NULL};
    struct words w;
    size_t at, end;
    words_read(a, lists, text, &w);
    return find(&w, 0, &at, &end) || words_have(&w, alone);
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
