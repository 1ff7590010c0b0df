#include "read/amount.h"

#include <string.h>

#include "read/number.h"

enum { UNIT_WORDS_MOST = 3, UNIT_BYTES_MOST = 40 };

static const struct {
    const char *word;
    enum fill fill;
} fill_words[] = {
    {"level", FILL_LEVEL},         {"flat", FILL_LEVEL},           {"rounded", FILL_ROUNDED},
    {"generous", FILL_ROUNDED},    {"heaped", FILL_HEAPED},        {"heaping", FILL_HEAPED},
    {"overflowing", FILL_HEAPED},  {"brimming", FILL_HEAPED},      {"mounded", FILL_HEAPED},
    {"scant", FILL_SCANT},         {"firmly packed", FILL_PACKED}, {"tightly packed", FILL_PACKED},
    {"well packed", FILL_PACKED},  {"well-packed", FILL_PACKED},   {"firmly-packed", FILL_PACKED},
    {"packed", FILL_PACKED},       {"lightly packed", FILL_NONE},  {"loosely packed", FILL_NONE},
    {"lightly-packed", FILL_NONE}, {"loosely-packed", FILL_NONE},  {"sifted", FILL_SIFTED},
};

static const struct {
    const char *word;
    enum piece_size size;
} size_words[] = {
    {"extra-large", SIZE_LARGE},  {"extra large", SIZE_LARGE}, {"very large", SIZE_LARGE},
    {"large", SIZE_LARGE},        {"big", SIZE_LARGE},         {"jumbo", SIZE_LARGE},
    {"good", SIZE_NONE},          {"medium", SIZE_MEDIUM},     {"medium-sized", SIZE_MEDIUM},
    {"medium-size", SIZE_MEDIUM}, {"med.", SIZE_MEDIUM},       {"medium-large", SIZE_LARGE},
    {"average", SIZE_MEDIUM},     {"very small", SIZE_SMALL},  {"small", SIZE_SMALL},
    {"smallish", SIZE_SMALL},     {"tiny", SIZE_SMALL},        {"baby-sized", SIZE_SMALL},
    {"large-ish", SIZE_LARGE},    {"largish", SIZE_LARGE},     {"lrg", SIZE_LARGE},
    {"med", SIZE_MEDIUM},         {"sm", SIZE_SMALL},          {"sml", SIZE_SMALL},
    {"lg", SIZE_LARGE},           {"lge", SIZE_LARGE},
};

/* whether a word written whole stands at `at`: a hyphen goes on with the word */
static bool
whole_word_at(struct slice s, size_t at, const char *word)
{
    if (!word_at(s, at, word))
        return false;
    size_t end = at + strlen(word);
    return end >= s.length || s.at[end] != '-';
}

size_t
amount_fill(struct slice line, size_t at, enum fill *fill)
{
    for (size_t i = 0; i < sizeof fill_words / sizeof *fill_words; i++) {
        if (whole_word_at(line, at, fill_words[i].word)) {
            *fill = fill_words[i].fill;
            return spaces_skip(line, at + strlen(fill_words[i].word)) - at;
        }
    }
    return 0;
}

static size_t
size_at(struct slice line, size_t at, enum piece_size *size)
{
    for (size_t i = 0; i < sizeof size_words / sizeof *size_words; i++) {
        if (whole_word_at(line, at, size_words[i].word)) {
            *size = size_words[i].size;
            return strlen(size_words[i].word);
        }
    }
    return 0;
}

/* the end of the word at `at`: letters, dots, apostrophes, and hyphens between letters */
static size_t
unit_word_end(struct slice s, size_t at)
{
    while (at < s.length &&
           (word_byte(s.at[at]) || s.at[at] == '.' || s.at[at] == '#' || s.at[at] == '"' ||
            s.at[at] == '\'' || (s.at[at] == '-' && at + 1 < s.length && word_byte(s.at[at + 1]))))
        at++;
    return at;
}

static const struct unit *
unit_of(const struct lexicon *lexicon, struct slice words)
{
    const struct unit *unit = lexicon->unit(lexicon->ctx, words);
    if (unit == NULL && words.length > 1 && words.at[words.length - 1] == '.')
        unit = lexicon->unit(lexicon->ctx, slice_part(words, 0, words.length - 1));
    return unit;
}

/* the unit of these words with spaces for hyphens: "thumb-sized piece", "fl-oz" */
static const struct unit *
unit_of_hyphened(const struct lexicon *lexicon, struct slice words)
{
    char spaced[UNIT_BYTES_MOST];
    memcpy(spaced, words.at, words.length);
    for (size_t i = 0; i < words.length; i++)
        if (spaced[i] == '-')
            spaced[i] = ' ';
    return unit_of(lexicon, (struct slice){spaced, words.length});
}

size_t
amount_unit(struct slice line, size_t at, const struct lexicon *lexicon, const struct unit **unit)
{
    size_t ends[UNIT_WORDS_MOST], count = 0, end = at;
    bool hyphen = false;
    while (count < UNIT_WORDS_MOST) {
        size_t from = count > 0 ? spaces_skip(line, end) : at;
        if (from >= line.length || (count > 0 && from == end))
            break;
        end = unit_word_end(line, from);
        if (end == from || end - at >= UNIT_BYTES_MOST)
            break;
        hyphen = hyphen || memchr(line.at + from, '-', end - from) != NULL;
        ends[count++] = end;
    }
    while (count-- > 0) {
        struct slice words = slice_part(line, at, ends[count]);
        *unit = unit_of(lexicon, words);
        if (*unit == NULL && hyphen)
            *unit = unit_of_hyphened(lexicon, words);
        if (*unit != NULL)
            return words.length;
    }
    /* "2tsp.salt": no space behind the dot of an abbreviation */
    const size_t dot = slice_find_byte(slice_part(line, 0, end), '.', at);
    *unit = dot != SIZE_MAX ? unit_of(lexicon, slice_part(line, at, dot)) : NULL;
    return *unit != NULL ? dot + 1 - at : 0;
}

/* a unit behind a number, with or without space or hyphen: "400g", "14-oz", "2 tbsp"; the hyphen
 * of "14-oz-can" ends the unit */
static size_t
unit_behind(struct slice line, size_t at, const struct lexicon *lexicon, const struct unit **unit)
{
    size_t from = spaces_skip(line, at);
    if (from < line.length && from == at && line.at[from] == '-')
        from++;
    size_t n = amount_unit(line, from, lexicon, unit);
    if (n == 0) {
        size_t dash = from;
        while (dash < line.length && (word_byte(line.at[dash]) || line.at[dash] == '.'))
            dash++;
        if (dash > from && dash < line.length && line.at[dash] == '-' && dash - from < 12)
            n = amount_unit(slice_part(line, 0, dash), from, lexicon, unit);
    }
    if (n == 0 && from < line.length) {
        bool inches = line.at[from] == '"' ||
                      slice_begins(slice_part(line, from, line.length), "″") ||
                      slice_begins(slice_part(line, from, line.length), "”");
        if (inches) {
            *unit = lexicon->unit(lexicon->ctx, SLICE("inch"));
            n = *unit != NULL ? (line.at[from] == '"' ? 1 : 3) : 0;
        }
    }
    return n > 0 ? from + n - at : 0;
}

/* the sign or word of "1 x 400 g", with spaces; 0 when there is none */
static size_t
times_at(struct slice line, size_t at)
{
    static const char *const marks[] = {"x", "×", "X", "*", "of"};
    size_t from = spaces_skip(line, at);
    for (size_t i = 0; i < sizeof marks / sizeof *marks; i++) {
        size_t n = strlen(marks[i]);
        if (!slice_begins(slice_part(line, from, line.length), marks[i]))
            continue;
        size_t next = spaces_skip(line, from + n);
        if (next < line.length && line.at[next] >= '0' && line.at[next] <= '9')
            return next - at;
    }
    return 0;
}

/* the "x" of "2 x carrots", with the spaces before it; 0 when it begins a word */
static size_t
lone_times_at(struct slice line, size_t at)
{
    static const char *const marks[] = {"x", "×", "X"};
    size_t from = spaces_skip(line, at);
    for (size_t i = 0; i < sizeof marks / sizeof *marks; i++) {
        size_t n = strlen(marks[i]);
        if (slice_begins(slice_part(line, from, line.length), marks[i]) && from + n < line.length &&
            line.at[from + n] == ' ')
            return from + n - at;
    }
    return 0;
}

/* "x 400 g" or "400 g" behind a plain count, "(14-oz)" too: an amount of each */
static size_t
each_at(struct slice line, size_t at, const struct lexicon *lexicon, struct amount *out)
{
    size_t gap = times_at(line, at), from = at + gap;
    struct number number;
    if (gap == 0)
        from = spaces_skip(line, at);
    bool open = gap == 0 && from < line.length && (line.at[from] == '(' || line.at[from] == '[');
    from += open;
    if (gap == 0 && from == at)
        return 0;
    size_t n = number_read(line, from, &number);
    const struct unit *unit;
    size_t m = n > 0 && !number.word ? unit_behind(line, from + n, lexicon, &unit) : 0;
    if (m == 0 || (unit->kind != UNIT_WEIGHT && unit->kind != UNIT_VOLUME && gap == 0 && !open &&
                   unit->kind != UNIT_PIECE))
        return 0;
    size_t end = from + n + m;
    /* "4 (about 800 g) fillets" are 800 g in all, "2 (about 6-ounce) fillets" 6 oz each */
    if (open && number.about && line.at[from + n] != '-')
        return 0;
    if (open) {
        if (end >= line.length || (line.at[end] != ')' && line.at[end] != ']'))
            return 0;
        end++;
    }
    out->each = true;
    out->times = out->value;
    out->value = number.value;
    out->about = out->about || number.about;
    out->unit = unit;
    return end - at;
}

/* "200 g - 250 g", "1 tbsp to 2 tbsp": the second end of a range that says its unit twice */
static size_t
second_end(struct slice line, size_t at, const struct lexicon *lexicon, struct amount *out)
{
    static const char *const marks[] = {"–", "—", "-", "to"};
    size_t from = spaces_skip(line, at);
    for (size_t i = 0; i < sizeof marks / sizeof *marks; i++) {
        if (!slice_begins(slice_part(line, from, line.length), marks[i]))
            continue;
        struct number number;
        const struct unit *unit;
        size_t start = spaces_skip(line, from + strlen(marks[i]));
        size_t n = number_read(line, start, &number);
        size_t m = n > 0 && !number.word ? unit_behind(line, start + n, lexicon, &unit) : 0;
        if (m == 0 || unit != out->unit || number.value.high <= out->value.low)
            return 0;
        out->value = span_between(out->value.low, number.value.high);
        return start + n + m - at;
    }
    return 0;
}

/* "or medium", "to large", "-large" behind a size */
static size_t
other_size_at(struct slice line, size_t at)
{
    static const char *const joints[] = {"or", "to", "-", "/"};
    for (size_t i = 0; i < sizeof joints / sizeof *joints; i++) {
        enum piece_size size;
        if (!word_at(line, at, joints[i]))
            continue;
        size_t from = spaces_skip(line, at + strlen(joints[i])), n = size_at(line, from, &size);
        if (n > 0)
            return from + n - at;
    }
    return 0;
}

/* size and fill words between number and unit; bytes, spaces behind them included */
static size_t
adjectives_at(struct slice line, size_t at, struct amount *out, size_t *last)
{
    size_t from = spaces_skip(line, at);
    *last = at;
    if (from == at && at > 0 && line.at[at - 1] != ' ')
        return 0;
    for (size_t n; from < line.length; from = spaces_skip(line, from + n)) {
        enum fill fill;
        enum piece_size size;
        if ((n = amount_fill(line, from, &fill)) > 0)
            out->fill = fill;
        else if ((n = size_at(line, from, &size)) > 0)
            out->size = size != SIZE_NONE ? size : out->size;
        else if (out->size != SIZE_NONE && (n = other_size_at(line, from)) > 0)
            ; /* "small or medium": the first holds */
        else
            break;
        *last = from + n;
        while (*last > from && line.at[*last - 1] == ' ')
            --*last;
    }
    return from - at;
}

/* whether a unit may stand without a number: "pinch of salt", "pinch salt", "tin of chickpeas" */
static bool
stands_alone(struct slice line, size_t end, const struct unit *unit)
{
    size_t next = spaces_skip(line, end);
    if (word_at(line, next, "of"))
        return unit->kind != UNIT_WEIGHT;
    /* "small bunch coriander", "thumb-sized piece ginger" */
    if (next > end && next < line.length &&
        (strcmp(unit->id, "bunch") == 0 || strcmp(unit->id, "thumb") == 0))
        return true;
    return unit->kind == UNIT_VAGUE && (next == line.length || next > end || line.at[end] == ',');
}

/* "大さじ1", "oosaji 1": a spoon or cup whose number stands behind it; a lone letter may be
 * anything
 */
static size_t
number_behind(struct slice line, size_t at, size_t end, const struct unit *unit, struct amount *out)
{
    enum { WORD_LEAST = 4 };
    struct number number;
    if (unit->kind != UNIT_VOLUME || end - at < WORD_LEAST)
        return 0;
    size_t from = spaces_skip(line, end), n = number_read(line, from, &number);
    if (n == 0 || number.word)
        return 0;
    out->value = number.value;
    out->about = number.about;
    return from + n - end;
}

static size_t
unit_alone(struct slice line, size_t at, const struct lexicon *lexicon, struct amount *out)
{
    size_t last, from = spaces_skip(line, at);
    from += adjectives_at(line, from, out, &last);
    const struct unit *unit;
    size_t n = amount_unit(line, from, lexicon, &unit);
    if (n == 0)
        return 0;
    size_t m = number_behind(line, from, from + n, unit, out);
    if (m > 0) {
        out->unit = unit;
        out->to = from + n + m;
        return out->to - from;
    }
    if (!stands_alone(line, from + n, unit))
        return 0;
    out->value = span_exact(1);
    out->unit = unit;
    out->to = from + n;
    return from + n - at;
}

/* a piece or vague word behind an adjective that is of it: "2 thick slices", "1 fat clove" */
static size_t
unit_described(struct slice line, size_t at, const struct lexicon *lexicon, struct amount *out)
{
    static const char *const words[] = {"fat",  "plump", "thick", "thin",   "long", "good", "heavy",
                                        "wide", "short", "fresh", "tender", "nice", "whole"};
    size_t from = spaces_skip(line, at);
    for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
        if (!whole_word_at(line, from, words[i]))
            continue;
        const struct unit *unit;
        size_t next = spaces_skip(line, from + strlen(words[i]));
        size_t n = next < line.length ? amount_unit(line, next, lexicon, &unit) : 0;
        if (n == 0 || (unit->kind != UNIT_PIECE && unit->kind != UNIT_VAGUE) ||
            spaces_skip(line, next + n) == line.length)
            return 0;
        out->unit = unit;
        return next + n - at;
    }
    return 0;
}

/* what follows a number without a unit: letters stuck to it by a hyphen make a name of both */
static bool
is_name(struct slice line, size_t at)
{
    return at + 1 < line.length && line.at[at] == '-' && word_byte(line.at[at + 1]);
}

size_t
amount_read(struct slice line, size_t at, const struct lexicon *lexicon, struct amount *out)
{
    struct number number;
    struct amount read = {.times = span_exact(1)};
    size_t last, from = spaces_skip(line, at), before = adjectives_at(line, from, &read, &last);
    size_t n = number_read(line, from + before, &number), end = from + before + n;
    read.from = from;
    if (n == 0) {
        read.fill = FILL_NONE;
        read.size = SIZE_NONE;
        if (unit_alone(line, at, lexicon, &read) == 0)
            return 0;
        *out = read;
        return read.to - at;
    }
    read.value = number.value;
    read.about = number.about;
    size_t m = each_at(line, end, lexicon, &read);
    if (m == 0) {
        size_t gap = adjectives_at(line, end, &read, &last);
        m = unit_behind(line, gap > 0 ? end + gap : end, lexicon, &read.unit);
        if (m == 0)
            m = unit_described(line, gap > 0 ? end + gap : end, lexicon, &read);
        if (m > 0)
            end = (gap > 0 ? end + gap : end) + m;
        else
            end = gap > 0 && last > end ? last : end;
        if (m == 0 && is_name(line, end))
            return 0;
        if (m == 0)
            end += lone_times_at(line, end);
    } else {
        end += m;
    }
    if (read.unit != NULL)
        end += second_end(line, end, lexicon, &read);
    read.to = end;
    *out = read;
    return end - at;
}

size_t
amount_number(struct slice line, size_t at, struct span *out, bool *about)
{
    struct number number;
    size_t n = number_read(line, at, &number);
    *out = number.value;
    *about = number.about;
    return n;
}
