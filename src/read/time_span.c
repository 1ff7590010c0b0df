#include "read/time_span.h"

#include <string.h>

#include "read/time_night.h"
#include "read/words_listed.h"

enum { MINUTE = 60, HOUR = 3600, DAY = 86400 };

static bool
at_end(const struct words *w, size_t i)
{
    return i >= w->count;
}

static size_t
one_number(const struct words *w, size_t i, double *value)
{
    if (at_end(w, i))
        return 0;
    const struct word *word = &w->items[i];
    if (word->kind == WORD_NUMBER) {
        *value = word->value;
        return 1;
    }
    if (word->kind != WORD_LETTERS)
        return 0;
    const struct word_value *number = word_lists_value(w->lists, WORDS_NUMBERS, word->folded);
    if (number == NULL)
        return 0;
    *value = number->range.mid;
    double ones = 0;
    size_t gap = i + 1 < w->count && word_is(&w->items[i + 1], "-") ? 1 : 0;
    if (*value >= 20 && i + 1 + gap < w->count && w->items[i + 1 + gap].kind == WORD_LETTERS &&
        one_number(w, i + 1 + gap, &ones) == 1 && ones < 10) {
        *value += ones;
        return 2 + gap;
    }
    return 1;
}

static size_t
number_with_fraction(const struct words *w, size_t i, double *value)
{
    size_t n = one_number(w, i, value);
    struct span part = {0};
    size_t more = n > 0 ? words_range(w, WORDS_AND_PARTS, i + n, &part) : 0;
    *value += part.mid;
    return n + more;
}

size_t
time_span_count(const struct words *w, size_t i, struct span *out)
{
    double low = 0, high = 0;
    size_t start = i;
    if (at_end(w, i))
        return 0;
    bool between = word_is(&w->items[i], "between");
    i += between;
    size_t n =
        between || w->items[i].kind == WORD_NUMBER ? 0 : words_range(w, WORDS_COUNTS, i, out);
    if (n > 0)
        return n;
    n = number_with_fraction(w, i, &low);
    if (n == 0)
        return 0;
    i += n;
    *out = span_exact(low);
    if (low < 1 && (words_at(w, i, "of an") > 0 || words_at(w, i, "of a") > 0))
        return i + 2 - start; /* "3/4 of an hour" */
    if (i + 1 >= w->count)
        return i - start;
    const struct word *joint = &w->items[i];
    if (!word_is(joint, "-") && !word_is(joint, "to") && !word_is(joint, "or") &&
        !(between && word_is(joint, "and")))
        return i - start;
    n = number_with_fraction(w, i + 1, &high);
    if (n == 0 || high < low)
        return i - start;
    *out = span_between(low, high);
    return i + 1 + n - start;
}

/* seconds of the unit at word i, or 0 */
static double
unit_at(const struct words *w, size_t i)
{
    const struct word_value *unit =
        at_end(w, i) || w->items[i].kind != WORD_LETTERS
            ? NULL
            : word_lists_value(w->lists, WORDS_TIME_UNITS, w->items[i].folded);
    return unit != NULL ? unit->range.mid : 0;
}

/* single letters, "a second" and the like are units only in good company */
static bool
unit_fits(const struct words *w, size_t count_at, size_t unit_place)
{
    const struct word *unit = &w->items[unit_place], *count = &w->items[count_at];
    const struct word *before = &w->items[unit_place - 1];
    if (word_is(unit, "m"))
        return unit->joined && before->kind == WORD_NUMBER && before->value >= 5 &&
               before->value <= 180;
    if (unit->folded.length == 1)
        return before->kind == WORD_NUMBER && before->value < 1000;
    if (word_is(unit, "second"))
        return count->kind == WORD_NUMBER || word_is(before, "-") ||
               words_at(w, unit_place + 1, "or two") > 0;
    return true;
}

/* one count with one unit: "5 more minutes", "20-minute", "an hour and a half" */
static size_t
one_term(const struct words *w, size_t i, struct time_span *out)
{
    struct span count;
    size_t n = time_span_count(w, i, &count);
    if (n == 0)
        return 0;
    size_t at = i + n;
    *out = (struct time_span){0};
    if (at + 1 < w->count && word_is(&w->items[at], "-")) {
        out->attributive = true;
        at++;
    } else if (at + 1 < w->count && words_one_of(w, at, WORDS_BETWEEN_COUNT_AND_UNIT)) {
        out->further = words_one_of(w, at, WORDS_FURTHER);
        at++;
    }
    out->unit = unit_at(w, at);
    if (out->unit <= 0 || !unit_fits(w, i, at))
        return 0;
    if (words_one_of(w, at, WORDS_SINGULAR_TIMES) && count.low > 1 &&
        w->items[i].kind == WORD_NUMBER)
        out->attributive = true;
    at++;
    struct span part = {0};
    n = words_range(w, WORDS_AND_PARTS, at, &part);
    at += n;
    if (n == 0 && count.high == 1 && (n = words_at(w, at, "or two")) > 0) {
        count = span_between(1, 2);
        at += n;
    }
    out->seconds = span_scale(span_add(count, part), out->unit);
    return at - i;
}

/* "1:30 hours" */
static size_t
clock_term(const struct words *w, size_t i, struct time_span *out)
{
    if (i + 3 >= w->count || w->items[i].kind != WORD_NUMBER || !word_is(&w->items[i + 1], ":") ||
        w->items[i + 2].kind != WORD_NUMBER)
        return 0;
    const double unit = unit_at(w, i + 3);
    if ((unit != HOUR && unit != MINUTE) || w->items[i + 2].value >= 60)
        return 0;
    double value = w->items[i].value + w->items[i + 2].value / 60;
    *out = (struct time_span){.seconds = span_exact(value * unit), .unit = unit / 60};
    return 4;
}

/* the minutes of "1 hr 15" or "1h30", where nobody wrote "minutes" */
static size_t
bare_minutes(const struct words *w, size_t unit_place, double *minutes)
{
    size_t i = unit_place + 1;
    if (at_end(w, i) || w->items[i].kind != WORD_NUMBER || w->items[i].value >= 60 ||
        !(words_one_of(w, unit_place, WORDS_SHORT_HOURS) ||
          (word_is(&w->items[unit_place], "hour") && w->items[i].value >= 10 &&
           (i + 1 >= w->count || word_is(&w->items[i + 1], ".") ||
            word_is(&w->items[i + 1], ",")))))
        return 0;
    if (i + 1 < w->count) {
        const struct word *next = &w->items[i + 1];
        bool ends = (next->kind == WORD_MARK && !word_is(next, "-") && !word_is(next, "°")) ||
                    words_among(next, word_lists_all(w->lists, WORDS_BEHIND_BARE_TIME));
        if (!ends)
            return 0;
    }
    *minutes = w->items[i].value;
    return 1;
}

/* one or more terms in falling units: "1 hour and 20 minutes" */
static size_t
compound(const struct words *w, size_t i, struct time_span *out)
{
    size_t n = clock_term(w, i, out);
    if (n > 0)
        return n;
    n = one_term(w, i, out);
    if (n == 0)
        return 0;
    double minutes = 0;
    if (bare_minutes(w, i + n - 1, &minutes) > 0) {
        out->seconds = span_add(out->seconds, span_exact(minutes * MINUTE));
        out->unit = MINUTE;
        return n + 1;
    }
    while (out->unit > 1 && out->unit <= DAY && !out->attributive) {
        size_t at = i + n;
        if (at < w->count && (word_is(&w->items[at], "and") || word_is(&w->items[at], ",")))
            at++;
        struct time_span more;
        size_t m = at < w->count && w->items[at].kind == WORD_NUMBER ? one_term(w, at, &more) : 0;
        if (m == 0 && at < w->count && word_is(&w->items[at - 1], "and"))
            m = one_term(w, at, &more);
        if (m == 0 || more.unit >= out->unit || more.seconds.high >= out->unit || more.further)
            break;
        out->seconds = span_add(out->seconds, more.seconds);
        out->unit = more.unit;
        n = at + m - i;
    }
    return n;
}

/* the hours that say how long a night is: "overnight, 10 to 12 hours", "overnight (10 hours)" */
static size_t
hours_of_night(const struct words *w, size_t i, struct time_span *out)
{
    const double shortest = 4.0 * HOUR, longest = 24.0 * HOUR;
    struct time_span hours, end;
    size_t n = 0;
    while (n < 3 && i + n < w->count && words_one_of(w, i + n, WORDS_BEFORE_HOURS_OF_NIGHT))
        n++;
    size_t m = n > 0 && i + n < w->count && w->items[i + n].kind == WORD_NUMBER
                   ? compound(w, i + n, &hours)
                   : 0;
    if (m == 0 || hours.further || hours.seconds.low < shortest || hours.seconds.high > longest)
        return 0;
    n += m;
    if (i + n + 1 < w->count && word_is(&w->items[i + n], "to") &&
        (m = compound(w, i + n + 1, &end)) > 0) {
        hours.seconds = span_cover(hours.seconds, end.seconds);
        n += m + 1;
    }
    *out = hours;
    return n;
}

static size_t
overnight(const struct words *w, size_t i, struct time_span *out)
{
    struct span seconds;
    const size_t n = at_end(w, i) ? 0 : time_night_at(w, i, &seconds);
    if (n > 0)
        *out = (struct time_span){.seconds = seconds, .unit = HOUR, .unnumbered = true};
    return n + (n > 0 ? hours_of_night(w, i + n, out) : 0);
}

static size_t
term(const struct words *w, size_t i, struct time_span *out)
{
    size_t n = overnight(w, i, out);
    return n > 0 ? n : compound(w, i, out);
}

/* words between the two ends of a range of stretches: "to", "or up to", "(preferably" */
static size_t
range_joint(const struct words *w, size_t i)
{
    bool joined = false;
    size_t n = 0;
    for (; n < 6 && i + n < w->count; n++) {
        bool joint = words_one_of(w, i + n, WORDS_TIME_JOINTS);
        joined = joined || joint;
        if (!joint && !words_one_of(w, i + n, WORDS_BESIDE_TIME_JOINTS))
            break;
    }
    return joined ? n : 0;
}

/* "4 hours and up to 24": the end of a range in the unit of its beginning */
static size_t
bare_end(const struct words *w, size_t i, const struct time_span *begun, struct time_span *out)
{
    /* "3 hours, to 68 °C" ends in no 68 hours */
    static const char *const other_units[] = {"°", "º", "%", "/", "-", "\"", NULL};
    struct span count;
    size_t n =
        i < w->count && i > 0 && word_is(&w->items[i - 1], "to") && w->items[i].kind == WORD_NUMBER
            ? one_number(w, i, &count.mid)
            : 0;
    if (n == 0 || count.mid * begun->unit <= begun->seconds.high ||
        (i + n < w->count &&
         (w->items[i + n].kind != WORD_MARK || words_among(&w->items[i + n], other_units))))
        return 0;
    *out = (struct time_span){.seconds = span_exact(count.mid * begun->unit), .unit = begun->unit};
    return n;
}

size_t
time_span_at(const struct words *w, size_t i, struct time_span *out)
{
    if (at_end(w, i))
        return 0;
    size_t n = term(w, i, out);
    if (n == 0)
        return 0;
    for (size_t gap; (gap = range_joint(w, i + n)) > 0;) {
        struct time_span other;
        size_t m = term(w, i + n + gap, &other);
        if (m == 0)
            m = bare_end(w, i + n + gap, out, &other);
        if (m == 0 || other.further)
            break;
        out->seconds = span_cover(out->seconds, other.seconds);
        out->unit = other.unit;
        n += gap + m;
    }
    size_t m = words_at(w, i + n, "or so");
    n += m;
    for (size_t k = 0; k < 2 && m == 0; k++) {
        m = words_at(w, i + n, k == 0 ? "or longer" : "or more");
        out->at_least = out->at_least || m > 0;
        n += m;
    }
    return n;
}
