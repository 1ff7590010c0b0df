#include "write/notation.h"

#include <math.h>

struct notation
notation_new(struct text *t)
{
    return (struct notation){t, false};
}

static void
comma(struct notation *n)
{
    if (n->more)
        text_add_byte(n->text, ',');
    n->more = true;
}

void
notation_open(struct notation *n, char bracket)
{
    comma(n);
    text_add_byte(n->text, bracket);
    n->more = false;
}

void
notation_close(struct notation *n, char bracket)
{
    text_add_byte(n->text, bracket);
    n->more = true;
}

void
notation_key(struct notation *n, const char *key)
{
    comma(n);
    text_add_byte(n->text, '"');
    text_add_string(n->text, key);
    text_add_bytes(n->text, "\":", 2);
    n->more = false;
}

/* bytes of the well-formed UTF-8 character at s[i], or 0 */
static size_t
character(struct slice s, size_t i)
{
    unsigned char c = (unsigned char)s.at[i];
    size_t length = c < 0x80 ? 1 : c < 0xc2 ? 0 : c < 0xe0 ? 2 : c < 0xf0 ? 3 : c < 0xf5 ? 4 : 0;
    if (length == 0 || length > s.length - i)
        return 0;
    for (size_t k = 1; k < length; k++)
        if (((unsigned char)s.at[i + k] & 0xc0) != 0x80)
            return 0;
    unsigned char next = length > 1 ? (unsigned char)s.at[i + 1] : 0;
    if ((c == 0xe0 && next < 0xa0) || (c == 0xed && next > 0x9f) || (c == 0xf0 && next < 0x90) ||
        (c == 0xf4 && next > 0x8f))
        return 0;
    return length;
}

static void
escape(struct text *t, unsigned char c)
{
    static const char hex[] = "0123456789abcdef";
    char u[6] = {'\\', 'u', '0', '0', hex[c >> 4], hex[c & 15]};
    switch (c) {
    case '"':
        text_add_bytes(t, "\\\"", 2);
        break;
    case '\\':
        text_add_bytes(t, "\\\\", 2);
        break;
    case '\n':
        text_add_bytes(t, "\\n", 2);
        break;
    default:
        text_add_bytes(t, u, sizeof u);
    }
}

void
notation_text(struct notation *n, struct slice s)
{
    struct text *t = n->text;
    size_t from = 0, i = 0;
    comma(n);
    text_add_byte(t, '"');
    while (i < s.length) {
        unsigned char c = (unsigned char)s.at[i];
        if (c >= 0x20 && c < 0x7f && c != '"' && c != '\\' && c != '<') {
            i++;
            continue;
        }
        size_t length = character(s, i);
        bool separator = length == 3 && c == 0xe2 && s.at[i + 1] == '\x80' &&
                         (s.at[i + 2] == '\xa8' || s.at[i + 2] == '\xa9');
        if (length > 1 && !separator) {
            i += length;
            continue;
        }
        text_add_bytes(t, s.at + from, i - from);
        if (separator)
            text_add_string(t, s.at[i + 2] == '\xa8' ? "\\u2028" : "\\u2029");
        else if (length == 0)
            text_add_string(t, "\\ufffd");
        else
            escape(t, c);
        i += length == 0 ? 1 : length;
        from = i;
    }
    text_add_bytes(t, s.at + from, s.length - from);
    text_add_byte(t, '"');
}

void
notation_number(struct notation *n, double value, int decimals)
{
    comma(n);
    if (isfinite(value))
        text_add_number(n->text, value, decimals);
    else
        text_add_string(n->text, "null");
}

void
notation_truth(struct notation *n, bool truth)
{
    comma(n);
    text_add_string(n->text, truth ? "true" : "false");
}

void
notation_raw(struct notation *n, struct slice json)
{
    comma(n);
    text_add(n->text, json);
}

void
notation_member(struct notation *n, const char *key, struct slice s)
{
    if (s.length == 0)
        return;
    notation_key(n, key);
    notation_text(n, s);
}

void
notation_member_string(struct notation *n, const char *key, const char *s)
{
    notation_member(n, key, slice_of(s));
}

void
notation_member_open(struct notation *n, const char *key, char bracket)
{
    notation_key(n, key);
    notation_open(n, bracket);
}
