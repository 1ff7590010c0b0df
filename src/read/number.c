#include "read/number.h"

#include <string.h>

enum { DIGITS_MOST = 9 };

static const struct {
    const char *mark;
    double top, bottom;
} vulgar[] = {
    {"½", 1, 2}, {"⅓", 1, 3}, {"⅔", 2, 3}, {"¼", 1, 4}, {"¾", 3, 4}, {"⅕", 1, 5},
    {"⅖", 2, 5}, {"⅗", 3, 5}, {"⅘", 4, 5}, {"⅙", 1, 6}, {"⅚", 5, 6}, {"⅐", 1, 7},
    {"⅛", 1, 8}, {"⅜", 3, 8}, {"⅝", 5, 8}, {"⅞", 7, 8}, {"⅑", 1, 9}, {"⅒", 1, 10},
};

static bool
digit(struct slice s, size_t at)
{
    return at < s.length && s.at[at] >= '0' && s.at[at] <= '9';
}

static size_t
mark_at(struct slice s, size_t at, const char *mark)
{
    size_t n = strlen(mark);
    return at + n <= s.length && memcmp(s.at + at, mark, n) == 0 ? n : 0;
}

static size_t
vulgar_at(struct slice s, size_t at, double *value)
{
    if (at >= s.length || (unsigned char)s.at[at] < 0xc2)
        return 0;
    for (size_t i = 0; i < sizeof vulgar / sizeof *vulgar; i++) {
        size_t n = mark_at(s, at, vulgar[i].mark);
        if (n > 0) {
            *value = vulgar[i].top / vulgar[i].bottom;
            return n;
        }
    }
    return 0;
}

static size_t
whole_at(struct slice s, size_t at, double *value)
{
    size_t n = 0;
    *value = 0;
    while (digit(s, at + n) && n <= DIGITS_MOST)
        *value = *value * 10 + (s.at[at + n++] - '0');
    return n <= DIGITS_MOST ? n : 0;
}

/* "1/2" with any of the strokes; the divisor not 0 */
static size_t
fraction_at(struct slice s, size_t at, double *value)
{
    double top, bottom;
    size_t n = whole_at(s, at, &top), stroke;
    if (n == 0)
        return 0;
    stroke = mark_at(s, at + n, "/");
    if (stroke == 0)
        stroke = mark_at(s, at + n, "⁄");
    if (stroke == 0)
        stroke = mark_at(s, at + n, "∕");
    size_t m = stroke > 0 ? whole_at(s, at + n + stroke, &bottom) : 0;
    /* "200/7oz" is two weights */
    if (m == 0 || bottom < 2 || bottom > 32 || top >= 10 * bottom)
        return 0;
    *value = top / bottom;
    return n + stroke + m;
}

/* digits with decimals: "1.5", "1,5", ".5", "1,000" */
static size_t
decimal_at(struct slice s, size_t at, double *value)
{
    size_t n = whole_at(s, at, value);
    bool point = at + n < s.length && (s.at[at + n] == '.' || s.at[at + n] == ',');
    if (!point || !digit(s, at + n + 1) || (n == 0 && s.at[at] == ','))
        return n;
    double decimals, scale = 1;
    size_t m = whole_at(s, at + n + 1, &decimals);
    for (size_t i = 0; i < m; i++)
        scale *= 10;
    if (m == 0)
        return n;
    /* a comma before three digits parts thousands, unless a 0 is in front */
    bool thousands = s.at[at + n] == ',' && m == 3 && n >= 1 && n <= 3 && *value > 0;
    *value = thousands ? *value * 1000 + decimals : *value + decimals / scale;
    return n + 1 + m;
}

/* what joins a whole number and its fraction: nothing, a space, "-", " and ", " & ", "+" */
static size_t
joint_at(struct slice s, size_t at)
{
    static const char *const joints[] = {" and ", " & ", " + ", "&", "-", "‑", "と", " "};
    for (size_t i = 0; i < sizeof joints / sizeof *joints; i++) {
        size_t n = mark_at(s, at, joints[i]);
        if (n > 0)
            return n;
    }
    return 0;
}

static size_t
mixed_at(struct slice s, size_t at, double *value)
{
    size_t n = fraction_at(s, at, value);
    if (n == 0)
        n = vulgar_at(s, at, value);
    if (n > 0)
        return n;
    n = decimal_at(s, at, value);
    if (n == 0)
        return 0;
    double part = 0;
    size_t m = vulgar_at(s, at + n, &part), joint = 0;
    if (m == 0) {
        joint = joint_at(s, at + n);
        size_t from = at + n + joint;
        m = joint == 0 ? 0 : vulgar_at(s, from, &part);
        if (m == 0 && joint > 0)
            m = fraction_at(s, from, &part);
        if (m == 0 && joint > 2 && phrase_stands_at(s, from, "a half")) {
            part = 0.5;
            m = strlen("a half");
        }
    }
    if (m == 0 || part >= 1)
        return n;
    *value += part;
    return n + joint + m;
}

static size_t
word_number_at(const struct word_lists *lists, struct slice s, size_t at, struct number *out)
{
    if (at > 0 && phrase_letter(s.at[at - 1]))
        return 0;
    const struct word_list *numbers = word_lists_get(lists, WORDS_LINE_NUMBERS);
    for (size_t i = 0; i < numbers->count; i++) {
        const struct span *value = &numbers->values[i].range;
        if (!phrase_stands_at(s, at, numbers->words[i]))
            continue;
        size_t n = strlen(numbers->words[i]);
        /* "four-inch" is a number, "half-and-half" is not, nor is "a-b" */
        if ((at + n < s.length && s.at[at + n] == '-' && (value->mid < 1 || n == 1)))
            continue;
        out->value = *value;
        out->word = true;
        out->about = out->about || value->low < value->high;
        return n;
    }
    return 0;
}

/* "%", and words that begin with digits: what stands here is no number */
static bool
is_name(struct slice s, size_t at)
{
    size_t next = phrase_skip(s, at);
    if (at + 1 < s.length && ((s.at[at] == '/' && digit(s, at + 1)) ||
                              (s.at[at] == '.' && (s.at[at + 1] == '.' || digit(s, at + 1)))))
        return true; /* "1/0", "1..5" */
    return (next < s.length && s.at[next] == '%') ||
           (next < s.length && phrase_stands_at(s, next, "per cent")) || mark_at(s, at, "°") > 0;
}

/* the dash or word of a range and the spaces about it; 0 when there is none */
static size_t
range_at(struct slice s, size_t at)
{
    static const char *const marks[] = {"–",     "—", "‐",  "‑",  "‒",   "−", "- to ",
                                        "- or ", "-", "to", "or", "bis", "~"};
    size_t from = phrase_skip(s, at);
    for (size_t i = 0; i < sizeof marks / sizeof *marks; i++) {
        size_t n = mark_at(s, from, marks[i]);
        bool word = phrase_letter(marks[i][0]) && (unsigned char)marks[i][0] < 0x80;
        if (n == 0 || (word && (from == at || !mark_at(s, from + n, " "))))
            continue;
        return phrase_skip(s, from + n) - at;
    }
    return 0;
}

/* "½ a 400 g tin", "1/2 of a cucumber": the article behind a part of one */
static size_t
of_one(const struct word_lists *lists, struct slice s, size_t at)
{
    size_t from = phrase_skip(s, at);
    size_t n = from > at ? phrase_at(lists, WORDS_OF_ONE, s, from, NULL) : 0;
    return n > 0 && mark_at(s, from + n, " ") ? from + n - at : 0;
}

static size_t
one_at(const struct word_lists *lists, struct slice s, size_t at, struct number *out)
{
    double value;
    size_t n = mixed_at(s, at, &value);
    if (n > 0) {
        out->value = span_exact(value);
        out->word = false;
        size_t dozen = phrase_skip(s, at + n);
        if (dozen > at + n && phrase_stands_at(s, dozen, "dozen")) {
            out->value = span_exact(value * 12);
            return dozen + strlen("dozen") - at;
        }
        if (value < 1)
            n += of_one(lists, s, at + n);
        return n;
    }
    return word_number_at(lists, s, at, out);
}

size_t
number_read(const struct word_lists *lists, struct slice text, size_t at, struct number *out)
{
    size_t from = phrase_skip(text, at), n;
    *out = (struct number){{0, 0, 0}, false, false, false};
    if (phrase_stands_at(text, from, "between"))
        from = phrase_skip(text, from + strlen("between"));
    while ((n = phrase_at(lists, WORDS_ABOUT, text, from, NULL)) > 0) {
        out->about = true;
        from = phrase_skip(text, from + n);
    }
    n = one_at(lists, text, from, out);
    if (n == 0 || is_name(text, from + n))
        return 0;
    size_t end = from + n, gap = range_at(text, end);
    struct number high = {{0, 0, 0}, false, false, false};
    if (gap == 0 && phrase_stands_at(text, phrase_skip(text, end), "and") &&
        slice_find(slice_part(text, at, from), "etween", 0) != SIZE_MAX)
        gap = phrase_skip(text, phrase_skip(text, end) + 3) - end;
    size_t m = gap > 0 ? one_at(lists, text, end + gap, &high) : 0;
    bool grows = m > 0 && high.value.high > out->value.low;
    /* "2 or a": an article there begins the next food */
    if (grows && !(high.word && high.value.mid == 1) && !is_name(text, end + gap + m) &&
        !(out->word && out->value.mid == 1 && !high.word)) {
        out->value = span_between(out->value.low, high.value.high);
        out->range = true;
        end += gap + m;
    }
    return end - at;
}
