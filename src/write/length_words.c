#include "write/length_words.h"

#include <math.h>

#include "reckon/fraction.h"
#include "write/markup.h"

/* of a tin; what is shorter is cut by eye, and what is longer no kitchen holds */
static const double CM_FROM = 10, CM_TO = 80, INCH = 2.54;

static bool
is_digit(struct slice s, size_t at)
{
    return at < s.length && s.at[at] >= '0' && s.at[at] <= '9';
}

/* a whole number, or one with a point; the byte behind it, or `at` where there is none */
static size_t
read_number(struct slice s, size_t at, double *out)
{
    const size_t begin = at;
    double place = 0.1;
    for (*out = 0; is_digit(s, at) && at - begin < 4; at++)
        *out = *out * 10 + (s.at[at] - '0');
    if (at > begin && at < s.length && s.at[at] == '.' && is_digit(s, at + 1))
        for (at++; is_digit(s, at) && place > 1e-3; at++, place /= 10)
            *out += (s.at[at] - '0') * place;
    return at;
}

static size_t
skip(struct slice s, size_t at, const char *word)
{
    return slice_begins(slice_part(s, at, s.length), word) ? at + strlen(word) : at;
}

/* a blank, a no-break space or a hyphen */
static size_t
skip_joint(struct slice s, size_t at)
{
    static const char *const joints[] = {" ", "-", "\xc2\xa0", "\xe2\x80\x91"};
    for (size_t i = 0; i < sizeof joints / sizeof *joints; i++)
        if (skip(s, at, joints[i]) > at)
            return skip(s, at, joints[i]);
    return at;
}

/* behind "cm", "inch" or "inches"; `at` where there is none */
static size_t
read_unit(struct slice s, size_t at, bool *inches)
{
    static const char *const units[] = {"cm", "inches", "inch"};
    for (size_t i = 0; i < sizeof units / sizeof *units; i++) {
        const size_t end = skip(s, at, units[i]);
        const bool letter = end < s.length && (s.at[end] | 32) >= 'a' && (s.at[end] | 32) <= 'z';
        *inches = i > 0;
        if (end > at && !letter)
            return end;
    }
    return at;
}

/* " x " and its kin between two sides */
static size_t
read_times(struct slice s, size_t at)
{
    static const char *const signs[] = {"x", "by", "\xc3\x97"};
    const size_t behind = skip_joint(s, at);
    for (size_t i = 0; i < sizeof signs / sizeof *signs; i++)
        if (skip(s, behind, signs[i]) > behind)
            return skip_joint(s, skip(s, behind, signs[i]));
    return at;
}

/* behind the other unit, where it follows: "20 cm (8 inch)", "8-inch/20 cm"; else `at` */
static size_t
skip_other(struct slice s, size_t at, bool inches)
{
    struct length other = {.inches = inches};
    double number;
    size_t from = at;
    while (from < s.length && (s.at[from] == ' ' || s.at[from] == '(' || s.at[from] == '/'))
        from++;
    size_t end = read_number(s, from, &number);
    if (end == from)
        return at;
    const size_t times = read_times(s, end);
    if (times > end)
        end = read_number(s, times, &number);
    const size_t unit = skip_joint(s, end), behind = read_unit(s, unit, &other.inches);
    return behind > unit && other.inches != inches ? behind : at;
}

static bool
read_length(struct slice s, size_t at, struct length *out)
{
    double second = 0;
    size_t end = read_number(s, at, &out->first);
    if (end == at)
        return false;
    const size_t times = read_times(s, end);
    if (times > end) {
        const size_t side = read_number(s, times, &second);
        end = side > times ? side : end;
    }
    const size_t unit = skip_joint(s, end);
    const size_t behind = read_unit(s, unit, &out->inches);
    out->to = behind;
    out->from = at;
    out->second = second;
    const double cm = out->first * (out->inches ? INCH : 1);
    const size_t other = skip_other(s, out->to, out->inches);
    out->both = behind > unit && other > out->to;
    out->to = out->both ? other : out->to;
    return behind > unit && cm >= CM_FROM && cm <= CM_TO;
}

/* "a 20 cm tin" is an 8-inch one */
static void
take_article(struct slice text, struct length *l)
{
    const struct slice before = slice_part(text, 0, l->from);
    const size_t article = slice_ends(before, " a ") ? 2 : slice_ends(before, " an ") ? 3 : 0;
    l->article = article > 0;
    l->from -= article;
}

/* whether the number is spoken with a vowel first: eight, eleven, eighteen, eighty */
static bool
begins_with_vowel(struct slice number)
{
    const size_t end = read_number(number, 0, &(double){0});
    return slice_begins(number, "8") ||
           (end == 2 && (slice_begins(number, "11") || slice_begins(number, "18")));
}

bool
length_find(struct slice text, size_t at, struct length *out)
{
    for (; at < text.length; at++) {
        if (!is_digit(text, at) || (at > 0 && (is_digit(text, at - 1) || text.at[at - 1] == '.' ||
                                               text.at[at - 1] == '/')))
            continue;
        if (!read_length(text, at, out))
            continue;
        if (!out->both) {
            take_article(text, out);
            return true;
        }
        at = out->to; /* the writer has said both */
    }
    return false;
}

static void
add_sides(struct text *t, const struct length *l, double factor, double step)
{
    fraction_add(t, factor == 1 ? l->first : round(l->first * factor / step) * step);
    if (l->second <= 0)
        return;
    text_add_string(t, "\xc2\xa0x\xc2\xa0");
    fraction_add(t, factor == 1 ? l->second : round(l->second * factor / step) * step);
}

static void
add_length(struct text *t, const struct length *l, bool inches, bool adjective)
{
    if (inches) {
        add_sides(t, l, l->inches ? 1 : 1 / INCH, 0.5);
        text_add_string(t, adjective ? "-inch" : "\xc2\xa0inches");
    } else {
        add_sides(t, l, l->inches ? INCH : 1, 1);
        text_add_string(t, "\xc2\xa0"
                           "cm");
    }
}

struct slice
length_words(const struct fragment_context *s, const struct length *l, struct slice words, size_t i)
{
    const bool first = fragment_region(s, i)->fahrenheit;
    const bool adjective = !slice_ends(words, "inches"); /* "a 20 cm tin" */
    struct text t = text_new(s->arena), out = text_new(s->arena);
    add_length(&t, l, first, adjective);
    text_add_string(&t, " (");
    add_length(&t, l, !first, adjective);
    text_add_byte(&t, ')');
    if (l->article)
        text_add_string(&out, begins_with_vowel(text_slice(&t)) ? "an\xc2\xa0" : "a\xc2\xa0");
    markup_measure(&out, text_slice(&t));
    return text_slice(&out);
}
