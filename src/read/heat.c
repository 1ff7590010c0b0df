#include "read/heat.h"

#include <math.h>

#include "base/list.h"
#include "read/heat_of.h"
#include "read/time_span.h"
#include "read/words_listed.h"

/* Oven settings as British cookery books print them side by side; Fahrenheit rises by 25 a mark
 * from 275 at mark 1, Celsius is rounded. Source: the oven temperature chart of The Good
 * Housekeeping Cookery Book (London: Collins & Brown); from memory. */
static const struct {
    double mark, celsius, fahrenheit;
} gas_marks[] = {
    {0.25, 110, 225}, {0.5, 130, 250}, {1, 140, 275}, {2, 150, 300}, {3, 170, 325}, {4, 180, 350},
    {5, 190, 375},    {6, 200, 400},   {7, 220, 425}, {8, 230, 450}, {9, 240, 475},
};

enum { OVEN_LEAST = 100 }; /* what a number without a scale must be to be an oven's */
enum { MARKS = sizeof gas_marks / sizeof *gas_marks };

static const char *const fan_words[] = {"fan", "convection", NULL};

double
heat_fahrenheit(double celsius)
{
    return celsius * 9 / 5 + 32;
}

double
heat_celsius(double fahrenheit)
{
    return (fahrenheit - 32) * 5 / 9;
}

double
heat_of_gas_mark(double mark)
{
    for (size_t i = 0; i < MARKS; i++) {
        if (gas_marks[i].mark == mark)
            return gas_marks[i].celsius;
        if (i + 1 < MARKS && mark > gas_marks[i].mark && mark < gas_marks[i + 1].mark)
            return (gas_marks[i].celsius + gas_marks[i + 1].celsius) / 2;
    }
    return NAN;
}

double
heat_gas_mark(double celsius)
{
    if (celsius < gas_marks[0].celsius - 5 || celsius > gas_marks[MARKS - 1].celsius + 10)
        return NAN;
    size_t best = 0;
    for (size_t i = 1; i < MARKS; i++)
        if (fabs(gas_marks[i].celsius - celsius) < fabs(gas_marks[best].celsius - celsius))
            best = i;
    return gas_marks[best].mark;
}

bool
heat_agrees(const struct heat *a, const struct heat *b)
{
    double gap = a->celsius.mid - b->celsius.mid;
    if (a->fan != b->fan) {
        double lower = a->fan ? -gap : gap;
        return lower >= 8 && lower <= 32;
    }
    return fabs(gap) <= 10 || span_overlap(a->celsius, b->celsius);
}

/* a mark above the last one is none, but it was meant as one: as if they went on by 14 degrees */
static double
mark_celsius(double mark)
{
    const double last = gas_marks[MARKS - 1].mark, most = 20;
    return mark > last && mark <= most ? gas_marks[MARKS - 1].celsius + 14 * (mark - last)
                                       : heat_of_gas_mark(mark);
}

/* "gas mark 6", "gas 6", "gas marks 4-5": words, 0 when it is none */
static size_t
gas_at(const struct words *w, size_t i, struct heat *out)
{
    static const char *const marks[] = {"mark", "marks", "mk", NULL};
    if (!word_is(&w->items[i], "gas") && !word_is(&w->items[i], "regulo"))
        return 0;
    size_t at = i + 1;
    if (at < w->count && words_among(&w->items[at], marks))
        at++;
    size_t n =
        at < w->count && w->items[at].kind == WORD_NUMBER ? time_span_count(w, at, &out->value) : 0;
    if (n == 0 || isnan(mark_celsius(out->value.low)) || isnan(mark_celsius(out->value.high)))
        return 0;
    out->scale = HEAT_GAS;
    out->celsius = span_between(mark_celsius(out->value.low), mark_celsius(out->value.high));
    return at + n - i;
}

/* "°C", "F", "degrees" at word i: words; `said` false when they leave the scale open */
static size_t
scale_at(const struct words *w, size_t i, double value, enum heat_scale *scale, bool *told)
{
    static const char *const celsius[] = {"c", "celsius", "centigrade", "°c", NULL};
    static const char *const fahrenheit[] = {"f", "fahrenheit", "°f", NULL};
    static const char *const signs[] = {"°", "degrees", "deg", NULL};
    size_t at = i;
    *told = false;
    bool degrees = at < w->count && words_among(&w->items[at], signs);
    at += degrees;
    if (degrees && at < w->count && word_is(&w->items[at], ".") && w->items[at].joined)
        at++;
    if (at < w->count &&
        (words_among(&w->items[at], celsius) || words_among(&w->items[at], fahrenheit))) {
        const struct word *letter = &w->items[at];
        bool c = words_among(letter, celsius);
        bool one = letter->to - letter->from == 1;
        /* "2 c flour" is cups */
        bool hot = value >= (c ? 30 : 80);
        if (degrees || !one || (hot && (letter->joined || letter->upper)) ||
            (letter->joined && letter->upper)) {
            *scale = c ? HEAT_CELSIUS : HEAT_FAHRENHEIT;
            *told = true;
            return at + 1 - i;
        }
    }
    return degrees ? at - i : 0;
}

/* "fan", "fan-forced", "(fan oven)" at word i, unless it introduces the next number */
static size_t
fan_behind(const struct words *w, size_t i)
{
    size_t at = i;
    if (at < w->count && word_is(&w->items[at], "("))
        at++;
    if (at >= w->count || !words_among(&w->items[at], fan_words))
        return 0;
    at++;
    while (at < w->count && words_one_of(w, at, WORDS_BEHIND_FAN))
        at++;
    if (at < w->count && word_is(&w->items[at - 1], ")") && !word_is(&w->items[i], "("))
        at--;
    return at < w->count && w->items[at].kind == WORD_NUMBER ? 0 : at - i;
}

static bool
fan_before(const struct words *w, size_t i)
{
    while (i > 0 && words_one_of(w, i - 1, WORDS_BEFORE_FAN_HEAT))
        i--;
    if (i == 0 || !words_among(&w->items[i - 1], fan_words))
        return false;
    return i < 2 || w->items[i - 2].kind != WORD_NUMBER;
}

/* a number that can only be an oven's although no scale is said: "heat the oven to 180" */
static bool
oven_number(const struct words *w, size_t first, size_t end, double value)
{
    static const char *const leads[] = {"to", "at", "oven", NULL};
    bool behind_oven =
        first > 1 && word_is(&w->items[first - 1], ",") && word_is(&w->items[first - 2], "oven");
    if (value < OVEN_LEAST || value > 550 || first == 0 ||
        !(behind_oven || words_among(&w->items[first - 1], leads)))
        return false;
    if (end < w->count && w->items[end].kind == WORD_LETTERS &&
        !words_one_of(w, end, WORDS_BEHIND_BARE_HEAT))
        return false;
    if (end < w->count && (word_is(&w->items[end], "-") || word_is(&w->items[end], "%")))
        return false;
    return words_any(w, words_list(w, WORDS_OVEN_VERBS), words_sentence_from(w, first), first,
                     NULL) != NULL;
}

static void
to_celsius(struct heat *h)
{
    bool f = h->scale == HEAT_FAHRENHEIT || (h->no_unit && h->value.mid > 260);
    h->celsius = f ? span_make(heat_celsius(h->value.low), heat_celsius(h->value.mid),
                               heat_celsius(h->value.high))
                   : h->value;
}

static bool
negative(const struct words *w, size_t i)
{
    if (i == 0)
        return false;
    const struct word *sign = &w->items[i - 1];
    return word_is(sign, "minus") || (word_is(sign, "-") && w->items[i].joined && !sign->joined);
}

/* "180C to 200C": the end of a range whose both ends have their scale */
static size_t
range_end(const struct words *w, size_t i, struct heat *h)
{
    enum heat_scale scale = h->scale;
    bool told;
    if (i + 1 >= w->count || (!word_is(&w->items[i], "to") && !word_is(&w->items[i], "-")) ||
        w->items[i + 1].kind != WORD_NUMBER || h->value.low != h->value.high)
        return 0;
    double high = w->items[i + 1].value;
    size_t n = scale_at(w, i + 2, high, &scale, &told);
    if (!told || scale != h->scale || high < h->value.low)
        return 0;
    h->value = span_between(h->value.low, high);
    return n + 2;
}

/* false: what follows the number is no scale and no fan, as with "34 minutes" */
static bool
scale_may_follow(const struct words *w, size_t i)
{
    const char first = i < w->count ? w->items[i].folded.at[0] : 'z';
    return (i < w->count && w->items[i].kind != WORD_LETTERS) || first == 'c' || first == 'd' ||
           first == 'f';
}

/* a number with its scale, or one that context makes a temperature: words, 0 when it is none */
static size_t
degrees_at(const struct words *w, size_t i, const struct heat *last, struct heat *out)
{
    bool told = false;
    size_t n = w->items[i].kind == WORD_NUMBER ? time_span_count(w, i, &out->value) : 0;
    if (n == 0 || (last == NULL && out->value.low < OVEN_LEAST && !scale_may_follow(w, i + n)))
        return 0;
    size_t end = i + n + scale_at(w, i + n, out->value.high, &out->scale, &told);
    if (told)
        end += range_end(w, end, out);
    size_t fan = fan_behind(w, end);
    out->fan = fan > 0 || fan_before(w, i);
    if (!told && last != NULL && out->fan && out->value.low >= 80)
        out->scale = last->scale == HEAT_GAS ? HEAT_CELSIUS : last->scale;
    else if (!told && oven_number(w, i, end + fan, out->value.low))
        out->no_unit = true;
    else if (!told)
        return 0;
    if (negative(w, i))
        out->value = span_exact(-out->value.low);
    to_celsius(out);
    return end + fan - i;
}

/* only brackets and the like stand between two writings of one heat */
static bool
beside_last(const struct words *w, size_t last_end, size_t first)
{
    if (first > last_end + 7)
        return false;
    for (size_t i = last_end; i < first; i++)
        if (!words_one_of(w, i, WORDS_BETWEEN_HEATS))
            return false;
    return true;
}

void
heats_find(struct arena *a, const struct words *w, struct heats *out)
{
    *out = (struct heats){0};
    size_t last_end = 0;
    for (size_t i = 0; i < w->count && out->count < HEATS_MOST; i++) {
        const struct word *word = &w->items[i];
        if (word->kind != WORD_NUMBER && !word_is(word, "gas") && !word_is(word, "regulo"))
            continue; /* begins no heat, as nearly all words */
        struct heat h = {0};
        struct heat *last = out->count > 0 ? &out->items[out->count - 1] : NULL;
        bool near = last != NULL && beside_last(w, last_end, i);
        size_t n = gas_at(w, i, &h);
        if (n == 0)
            n = degrees_at(w, i, near ? last : NULL, &h);
        if (n == 0)
            continue;
        h.from = word->from;
        h.to = w->items[i + n - 1].to;
        h.pair = near && (h.scale != last->scale || h.fan != last->fan);
        h.of = h.pair ? last->of
               : h.scale == HEAT_GAS || h.fan || h.no_unit
                   ? HEAT_OF_OVEN
                   : heat_of_words(w, i, i + n, h.celsius.mid);
        *LIST_GROW(a, out) = h;
        last_end = i + n;
        i += n - 1;
    }
}

void
heat_powers_find(struct arena *a, const struct words *w, struct powers *out)
{
    static const char *const units[] = {"w", "watt", "watts", NULL};
    *out = (struct powers){0};
    for (size_t i = 0; i + 1 < w->count && out->count < HEATS_MOST; i++) {
        const struct word *number = &w->items[i];
        size_t at = i + 1;
        if (number->kind != WORD_NUMBER || number->value < 60 || number->value > 3000)
            continue;
        if (word_is(&w->items[at], "-") && at + 1 < w->count)
            at++;
        if (words_among(&w->items[at], units))
            *LIST_GROW(a, out) = (struct power){number->from, w->items[at].to, number->value};
    }
}
