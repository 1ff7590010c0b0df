#include "write/json_writer.h"

#include <math.h>
#include <stdio.h>

#include <unistr.h>
struct json_writer
json_new(struct text *t)
{
    return (struct json_writer){t, false};
}

/* a comma where a value stands before */
static void
json_comma(struct json_writer *n)
{
    if (n->more)
        text_add_byte(n->text, ',');
    n->more = true;
}

/* what stands in JSON for the character at s[i], of `taken` bytes, or NULL: it stands for itself.
 * "<" and line separators are escaped so that a document is safe in a script element. */
static const char *
escape_at(struct slice s, size_t i, size_t *taken, char code[8])
{
    *taken = 1;
    switch (s.at[i]) {
    case '"':
        return "\\\"";
    case '\\':
        return "\\\\";
    case '\n':
        return "\\n";
    case '\r':
        return "\\r";
    case '\t':
        return "\\t";
    case '\xe2':
        if (s.length - i < 3 || s.at[i + 1] != '\x80' || (s.at[i + 2] & '\xfe') != '\xa8')
            return NULL;
        *taken = 3;
        return s.at[i + 2] == '\xa8' ? "\\u2028" : "\\u2029";
    case '<':
        return "\\u003c";
    default:
        if ((unsigned char)s.at[i] >= 0x20)
            return NULL;
        snprintf(code, 8, "\\u%04x", (unsigned)s.at[i]);
        return code;
    }
}

/* with every byte that is no UTF-8 replaced, for words that came from a command line */
static struct slice
mended(struct arena *a, struct slice s)
{
    struct text t = text_new(a);
    for (size_t i = 0; i < s.length;) {
        int n = u8_mbtouc(&(ucs4_t){0}, (const uint8_t *)s.at + i, s.length - i);
        bool sound = u8_check((const uint8_t *)s.at + i, (size_t)n) == NULL;
        text_add(&t, sound ? slice_part(s, i, i + (size_t)n) : SLICE("\xef\xbf\xbd"));
        i += (size_t)n;
    }
    return text_slice(&t);
}

void
json_text(struct json_writer *n, struct slice s)
{
    struct text *t = n->text;
    size_t written = 0, taken;
    char code[8];
    if (slice_plain(s, 0) < s.length && u8_check((const uint8_t *)s.at, s.length) != NULL)
        s = mended(t->arena, s);
    json_comma(n);
    text_add_byte(t, '"');
    for (size_t i = slice_plain(s, 0); i < s.length; i = slice_plain(s, i + taken)) {
        const char *escape = escape_at(s, i, &taken, code);
        if (escape == NULL)
            continue;
        text_add(t, slice_part(s, written, i));
        text_add_string(t, escape);
        written = i + taken;
    }
    text_add(t, slice_part(s, written, s.length));
    text_add_byte(t, '"');
}

void
json_open(struct json_writer *n, char bracket)
{
    json_comma(n);
    text_add_byte(n->text, bracket);
    n->more = false;
}

void
json_close(struct json_writer *n, char bracket)
{
    text_add_byte(n->text, bracket);
    n->more = true;
}

void
json_key(struct json_writer *n, const char *key)
{
    json_word(n, key);
    text_add_byte(n->text, ':');
    n->more = false;
}

void
json_word(struct json_writer *n, const char *word)
{
    json_comma(n);
    text_add_byte(n->text, '"');
    text_add_string(n->text, word);
    text_add_byte(n->text, '"');
}

void
json_member_whole(struct json_writer *n, const char *key, uint64_t value)
{
    json_key(n, key);
    text_add_whole(n->text, value);
    n->more = true;
}

void
json_member(struct json_writer *n, const char *key, struct slice s)
{
    if (s.length == 0)
        return;
    json_key(n, key);
    json_text(n, s);
}

void
json_member_string(struct json_writer *n, const char *key, const char *s)
{
    json_member(n, key, slice_of(s));
}

void
json_member_word(struct json_writer *n, const char *key, const char *word)
{
    json_key(n, key);
    json_word(n, word);
}

void
json_member_open(struct json_writer *n, const char *key, char bracket)
{
    json_key(n, key);
    text_add_byte(n->text, bracket);
}

void
json_number(struct json_writer *n, double value, int decimals)
{
    json_comma(n);
    if (isfinite(value))
        text_add_number(n->text, value, decimals);
    else
        text_add_string(n->text, "null");
}

void
json_truth(struct json_writer *n, bool truth)
{
    json_comma(n);
    text_add_string(n->text, truth ? "true" : "false");
}

void
json_raw(struct json_writer *n, struct slice json)
{
    json_comma(n);
    text_add(n->text, json);
}
