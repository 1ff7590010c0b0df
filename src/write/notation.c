#include "write/notation.h"

#include <math.h>
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
    comma(n);
    text_add_byte(n->text, '"');
    text_add_string(n->text, key);
    text_add_bytes(n->text, "\":", 2);
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
    for (size_t i = 0; i < length; i++) {
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

/* what a byte is in a string: most are written as they are, Jansson is left the rare ones */
enum { AS_IT_IS, ESCAPED, SEPARATOR, WIDE, RARE };

static int
kind_of(unsigned char c)
{
    if (c < 0x20 || c == 0x7f)
        return RARE;
    if (c >= 0x80)
        return c == 0xe2 ? SEPARATOR : WIDE;
    return c == '"' || c == '\\' || c == '<' ? ESCAPED : AS_IT_IS;
}

/* what put_string would make of Jansson's string, for sound UTF-8 without controls; false where it
 * is not that */
static bool
put_plainly(struct text *t, struct slice s)
{
    bool wide = false, escaped = false;
    for (size_t i = 0; i < s.length; i++) {
        const int kind = kind_of((unsigned char)s.at[i]);
        if (kind == RARE)
            return false;
        wide = wide || kind >= SEPARATOR;
        escaped = escaped || kind == ESCAPED || kind == SEPARATOR;
    }
    if (wide && u8_check((const uint8_t *)s.at, s.length) != NULL)
        return false;
    text_add_byte(t, '"');
    size_t from = 0;
    for (size_t i = 0; escaped && i < s.length; i++)
        if (s.at[i] == '"' || s.at[i] == '\\') {
            put_string(s.at + from, i - from, t);
            text_add_byte(t, '\\');
            from = i;
        }
    if (escaped)
        put_string(s.at + from, s.length - from, t);
    else
        text_add(t, s);
    text_add_byte(t, '"');
    return true;
}

void
notation_text(struct notation *n, struct slice s)
{
    comma(n);
    if (put_plainly(n->text, s))
        return;
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
