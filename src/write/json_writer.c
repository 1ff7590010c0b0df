#include "write/json_writer.h"

#include <math.h>
#include <string.h>
#include <unistr.h>

#include <jansson.h>

struct json_writer
json_new(struct text *t)
{
    return (struct json_writer){t, false};
}

/* what stands in JSON for the character at s[i], of `taken` bytes, or NULL: it stands for itself.
 * "<" and line separators are escaped so that a document is safe in a script element. */
static const char *
escape_at(struct slice s, size_t i, size_t *taken)
{
    *taken = 1;
    switch (s.at[i]) {
    case '"':
        return "\\\"";
    case '\\':
        return "\\\\";
    case '\n':
        return "\\n";
    case '<':
        return "\\u003c";
    case '\xe2':
        if (s.length - i < 3 || s.at[i + 1] != '\x80' || (s.at[i + 2] & '\xfe') != '\xa8')
            return NULL;
        *taken = 3;
        return s.at[i + 2] == '\xa8' ? "\\u2028" : "\\u2029";
    default:
        return NULL;
    }
}

/* the inside of a string that is_usual; its first `plain` bytes are plain */
static void
put_usual(struct text *t, struct slice s, size_t plain)
{
    size_t written = 0, taken;
    for (size_t i = plain; i < s.length; i = slice_plain(s, i)) {
        const char *escape = escape_at(s, i, &taken);
        if (escape != NULL) {
            text_add(t, slice_part(s, written, i));
            text_add_string(t, escape);
            written = i + taken;
        }
        i += taken;
    }
    text_add(t, slice_part(s, written, s.length));
}

/* a part of a string as Jansson writes it, whose own escapes stay; "<" stands in JSON only inside
 * strings */
static int
put_string(const char *bytes, size_t length, void *ctx)
{
    struct text *t = ctx;
    struct slice s = {bytes, length};
    size_t written = 0, taken;
    for (size_t i = 0; (i = slice_plain(s, i)) < length; i += taken) {
        const char *escape = escape_at(s, i, &taken);
        if (escape == NULL || bytes[i] == '"' || bytes[i] == '\\' || bytes[i] == '\n')
            continue;
        text_add(t, slice_part(s, written, i));
        text_add_string(t, escape);
        written = i + taken;
    }
    text_add(t, slice_part(s, written, length));
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
json_text(struct json_writer *n, struct slice s)
{
    const size_t plain = slice_plain(s, 0);
    json_comma(n);
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
