#include "base/text.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define XXH_INLINE_ALL /* most digests are of a few bytes, where the call would cost more */
#include <xxhash.h>

static char
lower(char c)
{
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

bool
slice_is_anycase(struct slice a, const char *b)
{
    size_t n = strlen(b);
    if (a.length != n)
        return false;
    for (size_t i = 0; i < n; i++)
        if (lower(a.at[i]) != lower(b[i]))
            return false;
    return true;
}

int
slice_order(struct slice a, struct slice b)
{
    size_t n = a.length < b.length ? a.length : b.length;
    int order = n > 0 ? memcmp(a.at, b.at, n) : 0;
    if (order != 0)
        return order;
    return (a.length > b.length) - (a.length < b.length);
}

static bool
is_blank(char c)
{
    return c == ' ' || (c >= '\t' && c <= '\r');
}

/* whether s has one of U+00A0, U+2009 and U+202F at `at`, where its first byte is; its bytes, or 0
 */
static size_t
wide_blank_at(struct slice s, size_t at)
{
    struct slice here = slice_part(s, at, s.length);
    if (slice_begins(here, "\xc2\xa0"))
        return 2;
    return slice_begins(here, "\xe2\x80\x89") || slice_begins(here, "\xe2\x80\xaf") ? 3 : 0;
}

struct slice
slice_trim(struct slice s)
{
    for (size_t n = 1; s.length > 0 && n > 0; s = slice_part(s, n, s.length)) {
        const char c = s.at[0];
        n = is_blank(c) ? 1 : (unsigned char)c < 0x80 ? 0 : wide_blank_at(s, 0);
    }
    for (size_t n = 1; s.length > 0 && n > 0; s.length -= n) {
        const char c = s.at[s.length - 1];
        n = is_blank(c) ? 1 : 0;
        if ((unsigned char)c >= 0x80 && s.length >= 2 && wide_blank_at(s, s.length - 2) == 2)
            n = 2;
        else if ((unsigned char)c >= 0x80 && s.length >= 3 && wide_blank_at(s, s.length - 3) == 3)
            n = 3;
    }
    return s;
}

size_t
slice_find(struct slice s, const char *needle, size_t from)
{
    size_t n = strlen(needle);
    if (n == 0 || from > s.length)
        return SIZE_MAX;
    for (size_t i = from; i + n <= s.length; i++) {
        const char *hit = memchr(s.at + i, needle[0], s.length - n + 1 - i);
        if (hit == NULL)
            return SIZE_MAX;
        i = (size_t)(hit - s.at);
        if (memcmp(hit, needle, n) == 0)
            return i;
    }
    return SIZE_MAX;
}

size_t
slice_find_byte(struct slice s, char byte, size_t from)
{
    if (from >= s.length)
        return SIZE_MAX;
    const char *hit = memchr(s.at + from, byte, s.length - from);
    return hit != NULL ? (size_t)(hit - s.at) : SIZE_MAX;
}

/* bytes that slice_plain passes over */
static const bool plain_bytes[256] = {
    [0x20] = 1, 1, 0, 1, 1, 1, 0, 0, 1, 1, 1, 1, 1, 1, 1, 1, /* not " & ' */
    [0x30] = 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 0, 1, 0, 1, /* not < > */
    [0x40] = 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, /* all */
    [0x50] = 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 0, 1, 1, 1, /* not a backslash */
    [0x60] = 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, /* all */
    [0x70] = 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 0, /* not the delete character */
};

size_t
slice_plain(struct slice s, size_t from)
{
    while (from < s.length && plain_bytes[(unsigned char)s.at[from]])
        from++;
    return from;
}

size_t
slice_characters(struct slice s)
{
    size_t n = 0;
    for (size_t i = 0; i < s.length; i++)
        n += ((unsigned char)s.at[i] & 0xc0) != 0x80;
    return n;
}

char *
slice_string(struct arena *a, struct slice s)
{
    return arena_copy(a, s.at, s.length);
}

struct slice
slice_copy(struct arena *a, struct slice s)
{
    return (struct slice){arena_copy(a, s.at, s.length), s.length};
}

uint64_t
slice_digest(struct slice s, uint64_t start)
{
    return XXH3_64bits_withSeed(s.at, s.length, start);
}

struct text
text_new(struct arena *a)
{
    return (struct text){a, NULL, 0, 0};
}

void
text_grow(struct text *t, size_t more)
{
    const size_t need = t->length + more + 1;
    /* most are keys and names of a few words */
    size_t room = t->room == 0 ? 64 : t->room < 128 ? 256 : t->room * 2;
    if (room < need)
        room = need;
    if (t->bytes == NULL)
        t->bytes = arena_take_raw(t->arena, room);
    else
        t->bytes = arena_regrow_bytes(t->arena, t->bytes, t->length, t->room, room);
    t->room = room;
}

void
text_addfv(struct text *t, const char *format, va_list args)
{
    va_list again;
    va_copy(again, args);
    text_widen(t, 64);
    const int n = vsnprintf(t->bytes + t->length, t->room - t->length, format, args);
    if (n > 0 && (size_t)n >= t->room - t->length) {
        text_widen(t, (size_t)n);
        vsnprintf(t->bytes + t->length, t->room - t->length, format, again);
    }
    va_end(again);
    t->length += n > 0 ? (size_t)n : 0;
}

void
text_addf(struct text *t, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    text_addfv(t, format, args);
    va_end(args);
}

void
text_add_whole(struct text *t, uint64_t n)
{
    char digits[20], *end = digits + sizeof digits, *at = end;
    do
        *--at = (char)('0' + n % 10);
    while ((n /= 10) > 0);
    text_add_bytes(t, at, (size_t)(end - at));
}

/* printf's digits of the usual numbers, for a tenth of its time; false where its exact rounding
 * could differ */
static bool
add_usual_number(struct text *t, double value, int decimals)
{
    static const double scales[] = {1, 10, 100, 1000};
    if (decimals < 0 || decimals > 3 || !(value >= 0 && value < 1e9))
        return false;
    const double scaled = value * scales[decimals], rest = scaled - floor(scaled);
    if (rest > 0.499999 && rest < 0.500001)
        return false;
    uint64_t n = (uint64_t)(scaled + 0.5), scale = (uint64_t)scales[decimals];
    text_add_whole(t, n / scale);
    if ((n %= scale) > 0)
        text_add_byte(t, '.');
    for (; n > 0; n %= scale) {
        scale /= 10;
        text_add_byte(t, (char)('0' + n / scale));
    }
    return true;
}

void
text_add_number(struct text *t, double value, int decimals)
{
    char digits[400];
    if (add_usual_number(t, value, decimals))
        return;
    int n = snprintf(digits, sizeof digits, "%.*f", decimals, value);
    if (n < 0 || (size_t)n >= sizeof digits)
        return;
    size_t length = (size_t)n;
    if (memchr(digits, '.', length) != NULL) {
        while (digits[length - 1] == '0')
            length--;
        if (digits[length - 1] == '.')
            length--;
    }
    struct slice s = {digits, length};
    text_add(t, slice_is(s, "-0") ? SLICE("0") : s);
}

/* bytes at s[i] that neither HTML nor XML allows, even escaped: controls other than white space,
 * and the C1 controls U+0080 to U+009F; 0 when there are none */
static size_t
forbidden(struct slice s, size_t i)
{
    unsigned char c = (unsigned char)s.at[i];
    if (c == 0x7f || (c < 0x20 && c != '\t' && c != '\n' && c != '\r'))
        return 1;
    if (c == 0xc2 && i + 1 < s.length && (unsigned char)s.at[i + 1] >= 0x80 &&
        (unsigned char)s.at[i + 1] < 0xa0)
        return 2;
    return 0;
}

void
text_add_html(struct text *t, struct slice s)
{
    size_t from = 0;
    for (size_t i = slice_plain(s, 0); i < s.length; i = slice_plain(s, i + 1)) {
        const char *name = "";
        size_t bytes = 1;
        switch (s.at[i]) {
        case '&':
            name = "&amp;";
            break;
        case '<':
            name = "&lt;";
            break;
        case '>':
            name = "&gt;";
            break;
        case '"':
            name = "&quot;";
            break;
        case '\'':
            name = "&#39;";
            break;
        default:
            bytes = forbidden(s, i);
            if (bytes == 0)
                continue;
        }
        text_add_bytes(t, s.at + from, i - from);
        text_add_string(t, name);
        from = i + bytes;
        i = from - 1;
    }
    text_add(t, slice_part(s, from, s.length));
}

struct slice
text_slice(const struct text *t)
{
    return (struct slice){t->bytes != NULL ? t->bytes : "", t->length};
}

static struct slice
formatted(struct arena *a, const char *format, va_list args)
{
    struct text t = text_new(a);
    if (format == NULL) /* UBSan's own check makes the compiler think of it */
        format = "";
    text_addfv(&t, format, args);
    return text_slice(&t);
}

char *
text_format(struct arena *a, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    struct slice s = formatted(a, format, args);
    va_end(args);
    return (char *)(uintptr_t)s.at;
}

struct slice
text_formatted(struct arena *a, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    struct slice s = formatted(a, format, args);
    va_end(args);
    return s;
}
