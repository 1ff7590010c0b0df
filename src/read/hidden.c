#include "read/hidden.h"

#include <string.h>

#include <unistr.h>

bool
hidden_is(uint32_t c)
{
    if ((c >= 0x20 && c < 0x7f) || (c >= 0xae && c < 0x600)) /* as most are */
        return false;
    return (c < 0x20 && c != '\t' && c != '\n' && c != '\r') || (c >= 0x7f && c < 0xa0) ||
           c == 0xad || c == 0x61c || c == 0x180e || (c >= 0x200b && c <= 0x200f) ||
           (c >= 0x2028 && c <= 0x202e) || (c >= 0x2060 && c <= 0x206f) || c == 0xfeff ||
           (c >= 0xfff9 && c <= 0xfffb) || (c & 0xfffe) == 0xfffe || (c >= 0xfdd0 && c <= 0xfdef) ||
           (c >= 0xe0000 && c <= 0xe007f);
}

static bool
is_joiner_at_work(struct slice s, size_t at, ucs4_t c)
{
    return (c == 0x200c || c == 0x200d) && at > 0 && at + 3 < s.length &&
           (unsigned char)s.at[at - 1] >= 0x80 && (unsigned char)s.at[at + 3] >= 0x80;
}

size_t
hidden_find(struct slice s, size_t from, uint32_t *code_point)
{
    for (size_t i = from; i < s.length;) {
        unsigned char byte = (unsigned char)s.at[i];
        if ((byte >= 0x20 && byte < 0x7f) || byte == '\n') {
            i++;
            continue;
        }
        if (byte >= 0xf8) { /* how cmark writes &#xFFFE; and &#xFFFF; */
            *code_point = 0xff00U + byte;
            return i;
        }
        ucs4_t c;
        int n = u8_mbtouc_unsafe(&c, (const uint8_t *)s.at + i, s.length - i);
        if (hidden_is(c) && !is_joiner_at_work(s, i, c)) {
            *code_point = c;
            return i;
        }
        i += (size_t)n;
    }
    return SIZE_MAX;
}

struct slice
hidden_strip(struct arena *a, struct slice s)
{
    uint32_t code;
    size_t from = 0, at = hidden_find(s, 0, &code);
    if (at == SIZE_MAX)
        return s;
    struct text t = text_new(a);
    for (; at != SIZE_MAX; at = hidden_find(s, from, &code)) {
        text_add(&t, slice_part(s, from, at));
        from = at + (size_t)u8_mblen((const uint8_t *)s.at + at, s.length - at);
        if (from <= at)
            from = at + 1; /* NUL counts no bytes there */
    }
    text_add(&t, slice_part(s, from, s.length));
    return text_slice(&t);
}
