#include "base/shown.h"

#include <stdarg.h>
#include <unistr.h>

uint32_t
shown_character(struct slice s, size_t at, size_t *length)
{
    ucs4_t c = (unsigned char)s.at[at];
    *length = 1;
    if (c < 0x80)
        return c;
    const int n = u8_mbtoucr(&c, (const uint8_t *)s.at + at, s.length - at);
    if (n <= 0)
        return SHOWN_BROKEN;
    *length = (size_t)n;
    return c;
}

bool
shown_hidden(uint32_t u)
{
    return u < 0x20 || (u >= 0x7f && u < 0xa0) || u == SHOWN_BROKEN ||
           (u >= 0x200e && u <= 0x200f) || (u >= 0x2028 && u <= 0x202e) ||
           (u >= 0x2066 && u <= 0x2069) || u == 0x061c;
}

/* bytes from..the next that is hidden or ends a line */
static size_t
clean_end(struct slice s, size_t at, uint32_t *stop, size_t *length)
{
    for (; at < s.length; at += *length) {
        *stop = shown_character(s, at, length);
        if (shown_hidden(*stop))
            return at;
    }
    *length = 0;
    return s.length;
}

static const char broken[] = "\xef\xbf\xbd";

void
shown_add(struct text *t, struct slice s)
{
    for (size_t at = 0, length; at < s.length;) {
        uint32_t stop = 0;
        const size_t end = clean_end(s, at, &stop, &length);
        text_add_bytes(t, s.at + at, end - at);
        if (length > 0)
            text_add_string(t, stop == '\n' || stop == '\t' ? " " : broken);
        at = end + length;
    }
}

bool
shown_put(FILE *to, struct slice s)
{
    bool good = true;
    for (size_t at = 0, length; at < s.length;) {
        uint32_t stop = 0;
        const size_t end = clean_end(s, at, &stop, &length);
        good = fwrite(s.at + at, 1, end - at, to) == end - at && good;
        if (length > 0 && (stop == '\n' || stop == '\t'))
            good = putc((int)stop, to) != EOF && good;
        else if (length > 0)
            good = fputs(broken, to) >= 0 && good;
        at = end + length;
    }
    return good;
}

bool
shown_print(FILE *to, struct slice s, bool data)
{
    return data ? fwrite(s.at, 1, s.length, to) == s.length : shown_put(to, s);
}

bool
shown_printf(FILE *to, const char *format, ...)
{
    char bytes[4096];
    va_list args;
    va_start(args, format);
    const int n = vsnprintf(bytes, sizeof bytes, format, args);
    va_end(args);
    const size_t length = n < 0 ? 0 : (size_t)n;
    return shown_put(to, (struct slice){bytes, length < sizeof bytes ? length : sizeof bytes - 1});
}
