#include "write/notation.h"

#include <math.h>
#include <string.h>
#include <unistr.h>

#include <jansson.h>

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
    const size_t length = strlen(key);
    text_widen(n->text, length + 4);
    char *at = n->text->bytes + n->text->length;
    if (n->more)
        *at++ = ',';
    *at++ = '"';
    memcpy(at, key, length);
    memcpy(at + length, "\":", 3);
    n->text->length = (size_t)(at - n->text->bytes) + length + 2;
    n->more = false;
}

/* a string's bytes as Jansson writes them, "<" and line separators escaped besides: "<" stands in
 * JSON only inside strings */
static int
put_string(const char *bytes, size_t length, void *ctx)
{
    struct text *t = ctx;
    struct slice s = {bytes, length};
    size_t from = 0;
    for (size_t i = 0; (i = slice_plain(s, i)) < length; i++) {
        const char *instead = NULL;
        size_t taken = 1;
        if (bytes[i] == '<') {
            instead = "\\u003c";
        } else if (bytes[i] == '\xe2' && length - i >= 3 && bytes[i + 1] == '\x80') {
            instead = bytes[i + 2] == '\xa8'   ? "\\u2028"
                      : bytes[i + 2] == '\xa9' ? "\\u2029"
                                               : NULL;
            taken = 3;
        }
        if (instead == NULL)
            continue;
        text_add(t, slice_part(s, from, i));
        text_add_string(t, instead);
        i += taken - 1;
        from = i + 1;
    }
    text_add(t, slice_part(s, from, length));
    return 0;
}

/* with every byte that is no UTF-8 replaced, for words that came from a command line */
static json_t *
mended(struct arena *a, struct slice s)
{
    struct text t = text_new(a);
    for (size_t i = 0; i < s.length;) {
        int n = u8_mbtouc(&(ucs4_t){0}, (const uint8_t *)s.at + i, s.length - i);
        bool sound = u8_check((const uint8_t *)s.at + i, (size_t)n) == NULL;
        text_add(&t, sound ? slice_part(s, i, i + (size_t)n) : SLICE("\xef\xbf\xbd"));
        i += (size_t)n;
    }
    return json_stringn(text_slice(&t).at, t.length);
}

/* whether a string is sound UTF-8 with no control but the end of a line; its first `from` bytes are
 * known to be plain */
static bool
is_usual(struct slice s, size_t from)
{
    bool wide = false;
    for (size_t i = from; i < s.length; i = slice_plain(s, i + 1)) {
        const unsigned char c = (unsigned char)s.at[i];
        if ((c < 0x20 && c != '\n') || c == 0x7f)
            return false;
        wide = wide || c > 0x7f;
    }
    return !wide || u8_check((const uint8_t *)s.at, s.length) == NULL;
}

/* what put_string would make of Jansson's string, without the way through it: few strings are not
 * usual */
static void
put_usual(struct text *t, struct slice s, size_t from)
{
    size_t written = 0;
    for (size_t i = from; i < s.length; i = slice_plain(s, i + 1)) {
        const char *escape = s.at[i] == '"'    ? "\\\""
                             : s.at[i] == '\\' ? "\\\\"
                             : s.at[i] == '\n' ? "\\n"
                                               : NULL;
        if (escape == NULL)
            continue;
        put_string(s.at + written, i - written, t);
        text_add_string(t, escape);
        written = i + 1;
    }
    put_string(s.at + written, s.length - written, t);
}

/* most strings, in one go */
static void
put_plain(struct text *t, struct slice s)
{
    text_widen(t, s.length + 2);
    char *at = t->bytes + t->length;
    *at++ = '"';
    if (s.length > 0)
        memcpy(at, s.at, s.length);
    memcpy(at + s.length, "\"", 2);
    t->length += s.length + 2;
}

void
notation_text(struct notation *n, struct slice s)
{
    const size_t plain = slice_plain(s, 0);
    comma(n);
    if (plain == s.length) {
        put_plain(n->text, s);
        return;
    }
    if (is_usual(s, plain)) {
        text_add_byte(n->text, '"');
        put_usual(n->text, s, plain);
        text_add_byte(n->text, '"');
        return;
    }
    json_t *string = json_stringn(s.at, s.length);
    if (string == NULL)
        string = mended(n->text->arena, s);
    json_dump_callback(string, put_string, n->text, JSON_ENCODE_ANY);
    json_decref(string);
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
