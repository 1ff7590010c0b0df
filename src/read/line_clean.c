#include "read/line_clean.h"

#include <string.h>

#include <unistr.h>

static bool
is_space(ucs4_t c)
{
    return c == ' ' || (c >= '\t' && c <= '\r') || c == 0xa0 || (c >= 0x2000 && c <= 0x200a) ||
           c == 0x202f || c == 0x205f || c == 0x3000;
}

/* footnote marks, trade marks and boxes to tick */
static bool
is_mark(ucs4_t c)
{
    return c == 0x2020 || c == 0x2021 || c == 0xa7 || c == 0xb6 || c == 0x2122 || c == 0xae ||
           c == 0xa9 || c == 0x2022 || c == 0x2023 || c == 0x2043 || c == 0xfe0f || c == '`' ||
           (c >= 0x25a0 && c <= 0x25ff) || c == '\\' || (c >= 0x2600 && c <= 0x27bf) ||
           (c >= 0x1f000 && c <= 0x1faff); /* pictures */
}

/* the digit of a superscript, subscript or wide character, or -1 */
static int
small_digit(ucs4_t c)
{
    if (c == 0xb9)
        return 1;
    if (c == 0xb2 || c == 0xb3)
        return (int)(c - 0xb0);
    if (c >= 0x2070 && c <= 0x2079)
        return (int)(c - 0x2070);
    if (c >= 0x2080 && c <= 0x2089)
        return (int)(c - 0x2080);
    if (c >= 0xff10 && c <= 0xff19)
        return (int)(c - 0xff10);
    return -1;
}

static void
put(struct clean_line *line, const char *bytes, size_t count, size_t origin)
{
    for (size_t i = 0; i < count; i++) {
        line->origin[line->length] = (uint32_t)(origin + i);
        line->bytes[line->length++] = bytes[i];
    }
}

static bool
ends_in_digit(const struct clean_line *line)
{
    size_t n = line->length;
    while (n > 0 && line->bytes[n - 1] == ' ')
        n--;
    return n > 0 && line->bytes[n - 1] >= '0' && line->bytes[n - 1] <= '9';
}

static bool
digit_next(struct slice text, size_t at)
{
    while (at < text.length && text.at[at] == ' ')
        at++;
    return at < text.length && text.at[at] >= '0' && text.at[at] <= '9';
}

/* bytes of "[^1]", "[2]", "[ ]", "[x]" at `at`: marks in brackets */
static size_t
bracket_mark(struct slice text, size_t at)
{
    size_t i = at + 1;
    i += i < text.length && text.at[i] == '^';
    size_t from = i;
    while (i < text.length && i - from < 3 &&
           ((text.at[i] >= '0' && text.at[i] <= '9') || text.at[i] == ' ' || text.at[i] == 'x'))
        i++;
    return i > from && i < text.length && text.at[i] == ']' ? i + 1 - at : 0;
}

static void
put_ascii(struct clean_line *line, struct slice text, size_t *at)
{
    char c = text.at[*at];
    size_t skip = 0;
    bool begins = line->length == 0 || line->bytes[line->length - 1] == ' ';
    bool ends = *at + 1 == text.length || text.at[*at + 1] == ' ';
    if (c == '*' && ends_in_digit(line) && digit_next(text, *at + 1)) {
        put(line, "x", 1, *at);
        skip = 1;
    } else if (c == '*' || (c == '_' && (begins || ends))) {
        skip = 1;
    } else if (c == '[') {
        skip = bracket_mark(text, *at);
    } else if (c == '-' && line->length == 0 && ends) {
        skip = 1;
    }
    if (skip == 0)
        put(line, &c, skip = 1, *at);
    *at += skip;
}

/* takes out brackets that have no partner */
static void
drop_lone_brackets(struct clean_line *line)
{
    size_t open = 0;
    for (size_t i = 0; i < line->length; i++) {
        if (line->bytes[i] == '(' || line->bytes[i] == '[')
            open++;
        else if (line->bytes[i] != ')' && line->bytes[i] != ']')
            continue;
        else if (open > 0)
            open--;
        else
            line_erase(line, i, i + 1), i--;
    }
    for (size_t i = line->length, closed = 0; i-- > 0 && open > 0;) {
        if (line->bytes[i] == ')' || line->bytes[i] == ']') {
            closed++;
        } else if (line->bytes[i] == '(' || line->bytes[i] == '[') {
            if (closed > 0) {
                closed--;
            } else {
                line_erase(line, i, i + 1);
                open--;
            }
        }
    }
}

struct clean_line
line_clean(struct arena *a, struct slice text)
{
    struct clean_line line = {arena_take(a, text.length + 1),
                              arena_take_array(a, text.length + 1, sizeof(uint32_t)), 0};
    for (size_t at = 0; at < text.length;) {
        ucs4_t c;
        int bytes = u8_mbtouc(&c, (const uint8_t *)text.at + at, text.length - at);
        size_t n = bytes > 0 ? (size_t)bytes : 1;
        int digit = small_digit(c);
        if (is_space(c)) {
            if (line.length > 0 && line.bytes[line.length - 1] != ' ')
                put(&line, " ", 1, at);
            at += n;
        } else if (is_mark(c)) {
            at += n;
        } else if (digit >= 0) {
            /* a raised digit behind a word is a footnote's, before a stroke a fraction's */
            bool stroke = slice_begins(slice_part(text, at + n, text.length), "\xe2\x81\x84");
            char d = (char)('0' + digit);
            if (stroke || c >= 0x2080)
                put(&line, &d, 1, at);
            at += n;
        } else if (c == 0x2010 || c == 0x2011) { /* hyphens of the typesetter */
            put(&line, "-", 1, at);
            at += n;
        } else if (c < 0x80) {
            put_ascii(&line, text, &at);
        } else {
            put(&line, text.at + at, n, at);
            at += n;
        }
    }
    while (line.length > 0 && strchr(" .!", line.bytes[line.length - 1]) != NULL)
        line.length--;
    line.origin[line.length] =
        line.length > 0 ? line.origin[line.length - 1] + 1 : (uint32_t)text.length;
    drop_lone_brackets(&line);
    return line;
}

void
line_erase(struct clean_line *line, size_t from, size_t to)
{
    if (from > 0 && line->bytes[from - 1] == ' ' && to < line->length && line->bytes[to] == ' ')
        to++;
    memmove(line->bytes + from, line->bytes + to, line->length - to);
    memmove(line->origin + from, line->origin + to, (line->length - to + 1) * sizeof *line->origin);
    line->length -= to - from;
}

void
line_origin(const struct clean_line *line, size_t from, size_t to, size_t *origin_from,
            size_t *origin_to)
{
    *origin_from = line->origin[from < line->length ? from : line->length];
    *origin_to = to > from ? (size_t)line->origin[to - 1] + 1 : *origin_from;
}

void
line_put(struct clean_line *line, struct slice bytes, uint32_t origin)
{
    memcpy(line->bytes + line->length, bytes.at, bytes.length);
    for (size_t i = 0; i < bytes.length; i++)
        line->origin[line->length++] = origin;
}

void
line_copy(struct clean_line *to, const struct clean_line *from, size_t begin, size_t end)
{
    memcpy(to->bytes + to->length, from->bytes + begin, end - begin);
    memcpy(to->origin + to->length, from->origin + begin, (end - begin) * sizeof *to->origin);
    to->length += end - begin;
}
