#include "read/line_pasted.h"

#include <string.h>

#include <unistr.h>

#include "read/hidden.h"

/* character references of HTML that recipes bring with them; what it has besides stays as it is */
static const struct {
    const char *name;
    ucs4_t character;
} references[] = {
    {"amp", '&'},       {"lt", '<'},        {"gt", '>'},        {"quot", '"'},
    {"apos", '\''},     {"nbsp", ' '},      {"ensp", ' '},      {"emsp", ' '},
    {"thinsp", ' '},    {"shy", 0xad},      {"zwj", 0x200d},    {"zwnj", 0x200c},
    {"frac12", 0xbd},   {"frac14", 0xbc},   {"frac34", 0xbe},   {"half", 0xbd},
    {"frac13", 0x2153}, {"frac23", 0x2154}, {"frac18", 0x215b}, {"frac38", 0x215c},
    {"frac58", 0x215d}, {"frac78", 0x215e}, {"frasl", 0x2044},  {"deg", 0xb0},
    {"times", 0xd7},    {"ndash", 0x2013},  {"mdash", 0x2014},  {"lsquo", 0x2018},
    {"rsquo", 0x2019},  {"ldquo", 0x201c},  {"rdquo", 0x201d},  {"hellip", 0x2026},
    {"bull", 0x2022},   {"middot", 0xb7},   {"reg", 0xae},      {"trade", 0x2122},
    {"copy", 0xa9},     {"eacute", 0xe9},   {"egrave", 0xe8},   {"ecirc", 0xea},
    {"euml", 0xeb},     {"agrave", 0xe0},   {"aacute", 0xe1},   {"acirc", 0xe2},
    {"auml", 0xe4},     {"aring", 0xe5},    {"aelig", 0xe6},    {"ccedil", 0xe7},
    {"iacute", 0xed},   {"icirc", 0xee},    {"iuml", 0xef},     {"ntilde", 0xf1},
    {"oacute", 0xf3},   {"ocirc", 0xf4},    {"ouml", 0xf6},     {"oslash", 0xf8},
    {"oelig", 0x153},   {"uacute", 0xfa},   {"ugrave", 0xf9},   {"ucirc", 0xfb},
    {"uuml", 0xfc},     {"szlig", 0xdf},
};

static bool
has_no_width(ucs4_t c)
{
    return c == 0xad || (c >= 0x200b && c <= 0x200f) || (c >= 0x2060 && c <= 0x2064) || c == 0xfeff;
}

/* the number of "&#189;" or "&#xbd;" behind its "&#"; bytes read, 0 when it is none */
static size_t
number_at(struct slice s, size_t at, ucs4_t *out)
{
    const bool hex = at < s.length && (s.at[at] | 0x20) == 'x';
    size_t i = at + hex;
    ucs4_t value = 0;
    for (; i < s.length && i - at < 8 && s.at[i] != ';'; i++) {
        const char c = (char)(s.at[i] | 0x20);
        const bool digit = s.at[i] >= '0' && s.at[i] <= '9';
        if (!digit && !(hex && c >= 'a' && c <= 'f'))
            return 0;
        value = value * (hex ? 16 : 10) + (ucs4_t)(digit ? s.at[i] - '0' : c - 'a' + 10);
    }
    *out = value;
    const bool valid = value > 0 && value < 0x110000 && !(value >= 0xd800 && value < 0xe000);
    return valid && i < s.length && s.at[i] == ';' ? i + 1 - at : 0;
}

/* the character reference at `at`, its bytes; 0 when there is none */
static size_t
reference_at(struct slice s, size_t at, ucs4_t *out)
{
    if (s.at[at] != '&' || at + 2 >= s.length)
        return 0;
    if (s.at[at + 1] == '#') {
        const size_t n = number_at(s, at + 2, out);
        return n > 0 ? n + 2 : 0;
    }
    const size_t end = slice_find_byte(s, ';', at);
    if (end == SIZE_MAX || end - at > 8)
        return 0;
    struct slice name = slice_part(s, at + 1, end);
    for (size_t i = 0; i < sizeof references / sizeof *references; i++)
        if (slice_is(name, references[i].name)) {
            *out = references[i].character;
            return end + 1 - at;
        }
    return 0;
}

/* the bytes of a tag at `at`: "<b>", "</li>", "<br />"; 0 when there is none */
static size_t
tag_at(struct slice s, size_t at)
{
    const size_t first = at + 1 + (at + 1 < s.length && s.at[at + 1] == '/');
    const size_t end = slice_find_byte(s, '>', at);
    const bool letter =
        first < s.length && (s.at[first] | 0x20) >= 'a' && (s.at[first] | 0x20) <= 'z';
    return s.at[at] == '<' && letter && end != SIZE_MAX ? end + 1 - at : 0;
}

/* where text struck by a mark or a tag at `at` begins, 0 when there is none; *end is where its
 * closing one stands, *close the bytes of that */
static size_t
struck_at(struct slice s, size_t at, size_t *end, size_t *close)
{
    static const char *const marks[][2] = {
        {"~~", "~~"}, {"<s>", "</s>"}, {"<del>", "</del>"}, {"<strike>", "</strike>"}};
    for (size_t i = 0; i < sizeof marks / sizeof *marks; i++) {
        const size_t n = strlen(marks[i][0]);
        if (!slice_is_anycase(slice_part(s, at, at + n), marks[i][0]))
            continue;
        *end = slice_find(s, marks[i][1], at + n);
        *close = strlen(marks[i][1]);
        return *end < s.length ? at + n : 0;
    }
    return 0;
}

/* tags of blocks part words, those within a word do not: "<br>", "ch<b>edd</b>ar" */
static bool
parts_words(struct slice tag)
{
    static const char *const blocks[] = {"<br",  "<li",   "</li", "<p",  "</p",
                                         "<div", "</div", "<td",  "</td"};
    for (size_t i = 0; i < sizeof blocks / sizeof *blocks; i++)
        if (slice_is_anycase(slice_part(tag, 0, strlen(blocks[i])), blocks[i]))
            return true;
    return false;
}

struct link_reader {
    size_t close, end; /* where the words of a link and its address end; 0: in no link */
};

struct writer {
    char *bytes;
    uint32_t *origin;
    size_t length;
};

static void
put(struct writer *w, const char *bytes, size_t count, size_t origin)
{
    for (size_t i = 0; i < count; i++) {
        w->bytes[w->length] = bytes[i];
        w->origin[w->length++] = (uint32_t)origin;
    }
}

/* A reference may name what no text may hold: a line has one end, and nothing that does not show.
 */
static void
put_character(struct writer *w, ucs4_t c, size_t origin)
{
    uint8_t utf8[6];
    const int n = hidden_is(c) ? 0 : u8_uctomb(utf8, c < 0x20 ? ' ' : c, sizeof utf8);
    put(w, (const char *)utf8, n > 0 ? (size_t)n : 0, origin);
}

static bool
brings_nothing(struct slice line)
{
    for (size_t i = 0; i < line.length; i++) {
        const unsigned char c = (unsigned char)line.at[i];
        if (strchr("&<~[*-", c) != NULL || c == 0xc2 || c == 0xe2 || c == 0xef)
            return false;
    }
    return true;
}

/* a link "[words](address)" whose bracket opens at `at`: where its words end; SIZE_MAX: none */
static size_t
link_words_end(struct slice s, size_t at, size_t *end)
{
    const size_t close = s.at[at] == '[' ? slice_find_byte(s, ']', at) : SIZE_MAX;
    if (close == SIZE_MAX || close + 1 >= s.length || s.at[close + 1] != '(')
        return SIZE_MAX;
    *end = slice_find_byte(s, ')', close);
    return *end == SIZE_MAX ? SIZE_MAX : close;
}

/* takes the link's marks out; its words stay. Bytes passed, 0 when there is none at `at` */
static size_t
link_at(struct slice line, size_t at, struct link_reader *link, struct pasted_line *out,
        const struct writer *w)
{
    size_t end;
    if (link->close > 0 && at == link->close) {
        out->link_to = out->link_to == 0 ? w->length : out->link_to;
        link->close = 0;
        return link->end + 1 - at;
    }
    const size_t close = link->close == 0 ? link_words_end(line, at, &end) : SIZE_MAX;
    if (close == SIZE_MAX)
        return 0;
    *link = (struct link_reader){close, end};
    if (out->link.length == 0) {
        out->link = slice_trim(slice_part(line, close + 2, end));
        out->link_from = w->length;
    }
    return 1;
}

/* bytes of "5) " or, before an amount, "5. ": the line's number in a list */
static size_t
list_number(struct slice line)
{
    size_t at = 0;
    while (at < 2 && at < line.length && line.at[at] >= '0' && line.at[at] <= '9')
        at++;
    if (at == 0 || at + 2 >= line.length || line.at[at + 1] != ' ')
        return 0;
    const char next = line.at[at + 2];
    const bool amount = (next >= '0' && next <= '9') || (unsigned char)next >= 0xc2;
    return line.at[at] == ')' || (line.at[at] == '.' && amount) ? at + 2 : 0;
}

/* bytes of the bullets, numbers and boxes to tick that the line begins with */
static size_t
marks_before(struct slice line)
{
    const size_t number = list_number(line);
    if (number > 0)
        return number;
    static const char *const marks[] = {"- ", "* ", "– ",  "• ",  "◦ ",  "‣ ", "· ",
                                        "▢",  "☐",  "☑",   "☒",   "✓",   "✔",  "□",
                                        "■",  "▪",  "[ ]", "[x]", "[X]", " "};
    for (size_t at = 0, found = 1; at < line.length; at += found) {
        found = 0;
        for (size_t i = 0; i < sizeof marks / sizeof *marks && found == 0; i++)
            if (slice_begins(slice_part(line, at, line.length), marks[i]))
                found = strlen(marks[i]);
        if (found == 0)
            return at;
    }
    return 0;
}

/* what stands at `at` and is not of the text: a tag, or struck text; its bytes, 0 for none */
static size_t
passed_at(struct slice line, size_t at, struct pasted_line *out, struct writer *w)
{
    size_t end, close, from = struck_at(line, at, &end, &close);
    if (from > 0) {
        if (out->struck_to == 0) {
            out->struck_from = from;
            out->struck_to = end;
        }
        return end + close - at;
    }
    if (slice_begins(slice_part(line, at, at + 2), "**"))
        return 2;
    const size_t n = tag_at(line, at);
    if (n > 0 && parts_words(slice_part(line, at, at + n)))
        put(w, " ", 1, at);
    return n;
}

struct pasted_line
line_pasted(struct arena *a, struct slice line)
{
    struct pasted_line out = {.text = line};
    if (brings_nothing(line) && list_number(line) == 0)
        return out;
    struct writer w = {arena_take(a, line.length + 1),
                       arena_take_array(a, line.length + 1, sizeof(uint32_t)), 0};
    struct link_reader link = {0, 0};
    for (size_t at = marks_before(line); at < line.length;) {
        ucs4_t c = 0;
        size_t n = link_at(line, at, &link, &out, &w);
        if (n == 0)
            n = passed_at(line, at, &out, &w);
        if (n == 0 && (n = reference_at(line, at, &c)) > 0)
            put_character(&w, c, at);
        if (n > 0) {
            at += n;
            continue;
        }
        const int read = u8_mbtouc(&c, (const uint8_t *)line.at + at, line.length - at);
        n = read > 0 ? (size_t)read : 1;
        for (size_t i = 0; i < n && !has_no_width(c); i++)
            put(&w, line.at + at + i, 1, at + i);
        at += n;
    }
    w.origin[w.length] = (uint32_t)line.length;
    out.text = (struct slice){w.bytes, w.length};
    out.origin = w.origin;
    out.all_struck = out.struck_to > 0 && slice_trim(out.text).length == 0;
    return out;
}
