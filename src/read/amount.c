#include "read/amount.h"

#include <string.h>

#include "read/number.h"
#include "read/phrase.h"

enum { UNIT_WORDS_MOST = 3, UNIT_BYTES_MOST = 40 };

/* bytes of a phrase that stands at `at` and is written whole: a hyphen goes on with the word */
static size_t
whole_at(const struct word_lists *lists, enum word_list_number list, struct slice s, size_t at,
         size_t *which)
{
    const size_t n = phrase_at(lists, list, s, at, which);
    return at + n < s.length && s.at[at + n] == '-' ? 0 : n;
}

size_t
amount_fill(const struct word_lists *lists, struct slice line, size_t at, enum fill *fill)
{
    size_t which, n = whole_at(lists, WORDS_FILLS, line, at, &which);
    if (n == 0)
        return 0;
    *fill = (enum fill)word_lists_get(lists, WORDS_FILLS)->values[which].kind;
    return phrase_skip(line, at + n) - at;
}

static size_t
size_at(const struct word_lists *lists, struct slice line, size_t at, enum piece_size *size)
{
    size_t which, n = whole_at(lists, WORDS_SIZES, line, at, &which);
    if (n > 0)
        *size = (enum piece_size)word_lists_get(lists, WORDS_SIZES)->values[which].kind;
    return n;
}

/* the end of the word at `at`: letters, dots, apostrophes, and hyphens between letters */
static size_t
unit_word_end(struct slice s, size_t at)
{
    while (at < s.length && (phrase_letter(s.at[at]) || s.at[at] == '.' || s.at[at] == '#' ||
                             s.at[at] == '"' || s.at[at] == '\'' ||
                             (s.at[at] == '-' && at + 1 < s.length && phrase_letter(s.at[at + 1]))))
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
        size_t from = count > 0 ? phrase_skip(line, end) : at;
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
    size_t from = phrase_skip(line, at);
    if (from < line.length && from == at && line.at[from] == '-')
        from++;
    size_t n = amount_unit(line, from, lexicon, unit);
    if (n == 0) {
        size_t dash = from;
        while (dash < line.length && (phrase_letter(line.at[dash]) || line.at[dash] == '.'))
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
    size_t from = phrase_skip(line, at);
    for (size_t i = 0; i < sizeof marks / sizeof *marks; i++) {
        size_t n = strlen(marks[i]);
        if (!slice_begins(slice_part(line, from, line.length), marks[i]))
            continue;
        size_t next = phrase_skip(line, from + n);
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
    size_t from = phrase_skip(line, at);
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
        from = phrase_skip(line, at);
    bool open = gap == 0 && from < line.length && (line.at[from] == '(' || line.at[from] == '[');
    from += open;
    if (gap == 0 && from == at)
        return 0;
    size_t n = number_read(lexicon->lists, line, from, &number);
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
    size_t from = phrase_skip(line, at);
    for (size_t i = 0; i < sizeof marks / sizeof *marks; i++) {
        if (!slice_begins(slice_part(line, from, line.length), marks[i]))
            continue;
        struct number number;
        const struct unit *unit;
        size_t start = phrase_skip(line, from + strlen(marks[i]));
        size_t n = number_read(lexicon->lists, line, start, &number);
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
other_size_at(const struct word_lists *lists, struct slice line, size_t at)
{
    static const char *const joints[] = {"or", "to", "-", "/"};
    for (size_t i = 0; i < sizeof joints / sizeof *joints; i++) {
        enum piece_size size;
        if (!phrase_stands_at(line, at, joints[i]))
            continue;
        size_t from = phrase_skip(line, at + strlen(joints[i])),
               n = size_at(lists, line, from, &size);
        if (n > 0)
            return from + n - at;
    }
    return 0;
}

/* size and fill words between number and unit; bytes, spaces behind them included */
static size_t
adjectives_at(const struct word_lists *lists, struct slice line, size_t at, struct amount *out,
              size_t *last)
{
    size_t from = phrase_skip(line, at);
    *last = at;
    if (from == at && at > 0 && line.at[at - 1] != ' ')
        return 0;
    for (size_t n; from < line.length; from = phrase_skip(line, from + n)) {
        enum fill fill;
        enum piece_size size;
        if ((n = amount_fill(lists, line, from, &fill)) > 0)
            out->fill = fill;
        else if ((n = size_at(lists, line, from, &size)) > 0)
            out->size = size != SIZE_NONE ? size : out->size;
        else if (out->size != SIZE_NONE && (n = other_size_at(lists, line, from)) > 0)
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
    size_t next = phrase_skip(line, end);
    if (phrase_stands_at(line, next, "of"))
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
number_behind(const struct lexicon *lexicon, struct slice line, size_t end, struct amount *out)
{
    struct number number;
    size_t from = phrase_skip(line, end), n = number_read(lexicon->lists, line, from, &number);
    if (n == 0 || number.word)
        return 0;
    out->value = number.value;
    out->about = number.about;
    return from + n - end;
}

static size_t
unit_alone(struct slice line, size_t at, const struct lexicon *lexicon, struct amount *out)
{
    enum { WORD_LEAST = 4 };
    size_t last, from = phrase_skip(line, at);
    from += adjectives_at(lexicon->lists, line, from, out, &last);
    const struct unit *unit;
    size_t n = amount_unit(line, from, lexicon, &unit);
    if (n == 0)
        return 0;
    size_t m = unit->kind == UNIT_VOLUME && n >= WORD_LEAST
                   ? number_behind(lexicon, line, from + n, out)
                   : 0;
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
    const size_t from = phrase_skip(line, at);
    const size_t bytes = whole_at(lexicon->lists, WORDS_UNIT_ADJECTIVES, line, from, NULL);
    const struct unit *unit;
    const size_t next = phrase_skip(line, from + bytes);
    const size_t n = bytes > 0 && next < line.length ? amount_unit(line, next, lexicon, &unit) : 0;
    if (n == 0 || (unit->kind != UNIT_PIECE && unit->kind != UNIT_VAGUE) ||
        phrase_skip(line, next + n) == line.length)
        return 0;
    out->unit = unit;
    return next + n - at;
}

/* what follows a number without a unit: letters stuck to it by a hyphen make a name of both */
static bool
is_name(struct slice line, size_t at)
{
    return at + 1 < line.length && line.at[at] == '-' && phrase_letter(line.at[at + 1]);
}

size_t
amount_read(struct slice line, size_t at, const struct lexicon *lexicon, struct amount *out)
{
    struct number number;
    struct amount read = {.times = span_exact(1)};
    size_t last, from = phrase_skip(line, at),
                 before = adjectives_at(lexicon->lists, line, from, &read, &last);
    size_t n = number_read(lexicon->lists, line, from + before, &number), end = from + before + n;
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
        size_t gap = adjectives_at(lexicon->lists, line, end, &read, &last);
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
amount_number(const struct word_lists *lists, struct slice line, size_t at, struct span *out,
              bool *about)
{
    struct number number;
    size_t n = number_read(lists, line, at, &number);
    *out = number.value;
    *about = number.about;
    return n;
}
