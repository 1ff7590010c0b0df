#include "read/duration.h"

#include <math.h>

#include "base/list.h"
#include "read/activity.h"
#include "read/duration_times.h"
#include "read/time_night.h"
#include "read/time_span.h"
#include "read/words_listed.h"

enum { MINUTE = 60, HOUR = 3600, DAY = 86400 };

struct places {
    struct placed *items;
    size_t count, room;
};

/* "soak the beans the night before": they wait until they are cooked. "It can be made the day
 * before" leaves it to the cook, and says when, not how long. */
static size_t
day_before(const struct words *w, size_t i, struct duration *d)
{
    const size_t n = time_night_before(w, i, &d->seconds);
    if (n == 0)
        return 0;
    d->part = words_any(w, words_list(w, WORDS_NO_WAIT_WITH), words_sentence_from(w, i),
                        words_sentence_to(w, i), NULL) != NULL
                  ? DURATION_BEFORE
                  : DURATION_SPENT;
    return n;
}

/* what may follow "2 more", where the minutes are not spelled out again */
static bool
bare_ends(const struct words *w, size_t i)
{
    if (i >= w->count)
        return true;
    if (w->items[i].kind == WORD_MARK)
        return !word_is(&w->items[i], "-") && !word_is(&w->items[i], "/") &&
               !word_is(&w->items[i], "°");
    return words_one_of(w, i, WORDS_BEHIND_BARE_MINUTES);
}

/* a verb that cooks, and none that adds, in the words before */
static bool
cooks_before(const struct words *w, size_t i)
{
    size_t from = words_sentence_from(w, i), near = i > 7 ? i - 7 : 0;
    bool cooks = false;
    for (size_t j = i; j > from && j > near; j--) {
        if (words_one_of(w, j - 1, WORDS_ADDING))
            return false;
        cooks = cooks || activity_of(w, j - 1) != ACTIVITY_NONE;
    }
    return cooks;
}

/* "leave for 10": minutes, as cooks say it, where no unit was named yet; "cook for 4" is of eaters
 */
static double
unit_unsaid(const struct span *count, bool after_for)
{
    const double least = 5, most = 90;
    return after_for && count->low >= least && count->high <= most ? MINUTE : 0;
}

/* "turn and cook 2 more", "another 2", "2 on the other side": in the unit last named */
static size_t
bare_number(const struct words *w, size_t i, double unit, struct duration *d)
{
    static const char *const more[] = {"more", "longer", "further", NULL};
    static const char *const leads[] = {"another", "further", "additional", NULL};
    struct span count;
    bool after_for = i > 0 && word_is(&w->items[i - 1], "for");
    size_t n = (unit > 0 && unit <= HOUR) || after_for ? time_span_count(w, i, &count) : 0;
    if (n > 0 && (unit <= 0 || unit > HOUR))
        unit = unit_unsaid(&count, after_for);
    if (unit <= 0)
        return 0;
    if (n == 0 || (w->items[i].kind != WORD_NUMBER && count.low < 1) ||
        word_is(&w->items[i], "a") || word_is(&w->items[i], "an"))
        return 0;
    size_t end = i + n;
    bool side = words_any(w, words_list(w, WORDS_ON_THE_OTHER_SIDE), end, end + 1, NULL) != NULL;
    bool swelled = end < w->count && words_among(&w->items[end], more) && bare_ends(w, end + 1);
    bool led = i > 0 && words_among(&w->items[i - 1], leads) && bare_ends(w, end);
    bool ends = end >= w->count || word_is(&w->items[end], ".") || word_is(&w->items[end], ",") ||
                word_is(&w->items[end], ";") || word_is(&w->items[end], ")") ||
                word_is(&w->items[end], "and") || word_is(&w->items[end], "then");
    after_for = after_for && ends;
    if (!side && (!(swelled || led || after_for) || !cooks_before(w, i)))
        return 0;
    d->seconds = span_scale(count, unit);
    d->part = DURATION_SPENT;
    d->further = swelled || led;
    d->bare = true;
    return n;
}

static void
put(struct arena *a, const struct words *w, struct durations *out, struct places *places,
    const struct placed *p, struct duration *d)
{
    d->core_from = w->items[p->first].from;
    d->core_to = w->items[p->end - 1].to;
    d->times = d->times_most = 1;
    if (d->at_most)
        d->seconds.low = 0;
    *LIST_GROW(a, out) = *d;
    *LIST_GROW(a, places) = *p;
}

/* "soak for 20 minutes, then cook, 40 minutes in all": more than what it sums up, of which the
 * parts are inside it */
static void
take_total(struct durations *out, struct duration *total)
{
    struct span sum = span_exact(0);
    for (size_t i = 0; i < out->count; i++)
        if (out->items[i].part == DURATION_SPENT)
            sum = span_add(sum, out->items[i].seconds);
    if (total->seconds.low <= sum.high)
        return;
    for (size_t i = 0; i < out->count; i++)
        if (out->items[i].part == DURATION_SPENT)
            out->items[i].part = DURATION_INSIDE;
    total->part = DURATION_SPENT;
}

void
durations_find(struct arena *a, const struct words *w, struct durations *out)
{
    struct places places = {0};
    double unit = 0;
    *out = (struct durations){0};
    for (size_t i = 0; i < w->count && out->count < DURATIONS_MOST; i++) {
        struct duration d = {0};
        struct time_span s;
        struct placed p = {.first = i, .from = i};
        const size_t begun = day_before(w, i, &d);
        size_t n = begun > 0 ? 0 : time_span_at(w, i, &s);
        p.end = p.to = i + n;
        if (n > 0) {
            d.seconds = s.seconds;
            if (duration_part_read(w, &s, out, places.items, &p, &d)) {
                if (p.whole && d.part == DURATION_INSIDE)
                    take_total(out, &d);
                put(a, w, out, &places, &p, &d);
                unit = s.unit;
            }
        } else if ((n = begun) > 0 || (n = bare_number(w, i, unit, &d)) > 0) {
            p.end = p.to = i + n;
            put(a, w, out, &places, &p, &d);
        }
        if (n > 0)
            i += n - 1;
    }
    duration_times_read(w, out, places.items);
    for (size_t i = 0; i < out->count; i++) {
        out->items[i].from = w->items[places.items[i].from].from;
        out->items[i].to = w->items[places.items[i].to - 1].to;
    }
}

/* one "4H" of an ISO 8601 duration at `at`; bytes, 0 when there is none */
static size_t
iso_part(struct slice s, size_t at, double *value, char *letter)
{
    size_t i = at;
    double v = 0, scale = 0;
    for (; i < s.length && ((s.at[i] >= '0' && s.at[i] <= '9') || s.at[i] == '.' || s.at[i] == ',');
         i++) {
        if (s.at[i] == '.' || s.at[i] == ',') {
            if (scale > 0 || i == at)
                return 0;
            scale = 1;
            continue;
        }
        v = v * 10 + (s.at[i] - '0');
        scale *= 10;
    }
    if (i == at || i - at > 12 || i >= s.length)
        return 0;
    *value = scale > 0 ? v / scale : v;
    *letter = s.at[i];
    return i + 1 - at;
}

static bool
iso_read(struct slice s, double *seconds)
{
    if (s.length < 3 || s.at[0] != 'P')
        return false;
    bool time = false, any = false;
    *seconds = 0;
    for (size_t i = 1; i < s.length;) {
        if (s.at[i] == 'T' && !time) {
            time = true;
            any = false;
            i++;
            continue;
        }
        double value;
        char letter;
        size_t n = iso_part(s, i, &value, &letter);
        double unit = n == 0                   ? 0
                      : time && letter == 'H'  ? HOUR
                      : time && letter == 'M'  ? MINUTE
                      : time && letter == 'S'  ? 1
                      : !time && letter == 'D' ? DAY
                      : !time && letter == 'W' ? 7.0 * DAY
                                               : 0;
        if (unit == 0)
            return false;
        *seconds += value * unit;
        any = true;
        i += n;
    }
    return any;
}

bool
duration_read(struct arena *a, const struct word_lists *lists, struct slice text,
              struct span *seconds)
{
    double value;
    text = slice_trim(text);
    if (iso_read(text, &value)) {
        *seconds = span_exact(value);
        return true;
    }
    if (text.length == 0 || text.length >= 200)
        return false;
    struct words w;
    struct time_span s;
    bool found = false, fits = true, most = false;
    words_read(a, lists, text, &w);
    for (size_t i = 0; fits && i < w.count;) {
        size_t n = found ? 0 : time_span_at(&w, i, &s);
        found = found || n > 0;
        fits = n > 0 || words_one_of(&w, i, WORDS_BESIDE_TIMES);
        most = most || word_is(&w.items[i], "up") || word_is(&w.items[i], "most");
        i += n > 0 ? n : 1;
    }
    if (fits && found)
        *seconds = most ? span_make(0, s.seconds.mid, s.seconds.high) : s.seconds;
    return fits && found;
}

static void
add_whole(struct text *t, const char *before, double value, const char *behind)
{
    text_add_string(t, before);
    text_add_number(t, value, 0);
    text_add_string(t, behind);
}

void
duration_write_iso(struct text *t, double seconds)
{
    double whole = seconds > 0 ? floor(seconds + 0.5) : 0;
    if (whole >= DAY && fmod(whole, DAY) == 0) {
        add_whole(t, "P", whole / DAY, "D");
        return;
    }
    double h = floor(whole / HOUR), m = floor(fmod(whole, HOUR) / MINUTE), s = fmod(whole, MINUTE);
    text_add_string(t, "PT");
    if (h > 0)
        add_whole(t, "", h, "H");
    if (m > 0)
        add_whole(t, "", m, "M");
    if (s > 0 || whole == 0)
        add_whole(t, "", s, "S");
}

void
duration_write_words(struct text *t, double seconds)
{
    double whole = seconds > 0 ? floor(seconds + 0.5) : 0;
    if (whole >= 2 * DAY && fmod(whole, DAY) == 0) {
        add_whole(t, "", whole / DAY, " days");
        return;
    }
    if (whole < 2 * MINUTE && fmod(whole, MINUTE) != 0) {
        add_whole(t, "", whole, " s");
        return;
    }
    double h = floor(whole / HOUR), m = floor(fmod(whole, HOUR) / MINUTE), s = fmod(whole, MINUTE);
    if (h > 0)
        add_whole(t, "", h, " h");
    if (m > 0 || h == 0)
        add_whole(t, h > 0 ? " " : "", m, " min");
    if (s > 0)
        add_whole(t, " ", s, " s");
}
