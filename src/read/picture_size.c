#include "read/picture_size.h"

#include <stdlib.h>

enum { PIXELS_MOST = 65535, SVG_HEAD = 4096 };

static unsigned
byte_at(struct slice s, size_t i)
{
    return i < s.length ? (unsigned char)s.at[i] : 0;
}

static unsigned
big(struct slice s, size_t i)
{
    return byte_at(s, i) << 8 | byte_at(s, i + 1);
}

static unsigned
little(struct slice s, size_t i)
{
    return byte_at(s, i + 1) << 8 | byte_at(s, i);
}

static struct picture_size
size_of(double width, double height)
{
    const bool sound = width >= 1 && height >= 1 && width <= PIXELS_MOST && height <= PIXELS_MOST;
    return sound ? (struct picture_size){width, height} : (struct picture_size){0, 0};
}

/* the first start of frame: C0 to CF without the tables that lie among them */
static struct picture_size
jpeg_size(struct slice s)
{
    for (size_t at = 2; at + 9 < s.length && byte_at(s, at) == 0xff;) {
        const unsigned marker = byte_at(s, at + 1);
        if (marker == 0xff) {
            at++;
            continue;
        }
        if (marker >= 0xc0 && marker <= 0xcf && marker != 0xc4 && marker != 0xc8 && marker != 0xcc)
            return size_of(big(s, at + 7), big(s, at + 5));
        at += 2 + big(s, at + 2);
    }
    return size_of(0, 0);
}

static struct picture_size
webp_size(struct slice s)
{
    const struct slice kind = slice_part(s, 12, 16);
    if (slice_is(kind, "VP8 "))
        return size_of(little(s, 26) & 0x3fff, little(s, 28) & 0x3fff);
    if (slice_is(kind, "VP8L")) {
        const unsigned bits = little(s, 21) | little(s, 23) << 16;
        return size_of((bits & 0x3fff) + 1, (bits >> 14 & 0x3fff) + 1);
    }
    if (slice_is(kind, "VP8X"))
        return size_of((little(s, 24) | byte_at(s, 26) << 16) + 1,
                       (little(s, 27) | byte_at(s, 29) << 16) + 1);
    return size_of(0, 0);
}

/* a plain number at the head of the words, units of pixels allowed; *rest: what follows */
static double
number_at(struct slice s, struct slice *rest)
{
    double value = 0, scale = 0;
    size_t i = 0;
    while (i < s.length && (s.at[i] == ' ' || s.at[i] == ','))
        i++;
    for (; i < s.length && ((s.at[i] >= '0' && s.at[i] <= '9') || (s.at[i] == '.' && scale == 0));
         i++) {
        if (s.at[i] == '.') {
            scale = 1;
            continue;
        }
        value = value * 10 + (s.at[i] - '0');
        scale *= 10;
    }
    *rest = slice_part(s, i, s.length);
    return scale > 1 ? value / scale : value;
}

/* the value of an attribute of the first element <svg> */
static struct slice
attribute(struct slice tag, const char *name)
{
    const size_t at = slice_find(tag, name, 0);
    if (at == SIZE_MAX)
        return SLICE("");
    const size_t from = at + strlen(name) + 1;
    const char quote = from > 0 && from <= tag.length ? tag.at[from - 1] : '"';
    return slice_part(tag, from, slice_find_byte(tag, quote, from));
}

static struct picture_size
svg_size(struct slice s)
{
    const struct slice head = slice_part(s, 0, SVG_HEAD);
    const size_t from = slice_find(head, "<svg", 0);
    if (from == SIZE_MAX)
        return size_of(0, 0);
    const struct slice tag = slice_part(head, from, slice_find_byte(head, '>', from));
    struct slice after, beyond;
    const double width = number_at(attribute(tag, " width="), &after);
    const double height = number_at(attribute(tag, " height="), &beyond);
    const bool pixels = (after.length == 0 || slice_is(after, "px")) &&
                        (beyond.length == 0 || slice_is(beyond, "px"));
    if (pixels && width > 0 && height > 0)
        return size_of(width, height);
    struct slice view = attribute(tag, " viewBox=");
    double sides[4];
    for (size_t i = 0; i < 4; i++)
        sides[i] = number_at(view, &view);
    return size_of(sides[2], sides[3]);
}

struct picture_size
picture_size_read(struct slice bytes)
{
    if (bytes.length >= 24 && slice_begins(bytes, "\x89PNG\r\n\x1a\n"))
        return size_of((double)big(bytes, 16) * 65536 + big(bytes, 18),
                       (double)big(bytes, 20) * 65536 + big(bytes, 22));
    if (slice_begins(bytes, "GIF8"))
        return size_of(little(bytes, 6), little(bytes, 8));
    if (slice_begins(bytes, "\xff\xd8"))
        return jpeg_size(bytes);
    if (slice_begins(bytes, "RIFF") && slice_is(slice_part(bytes, 8, 12), "WEBP"))
        return webp_size(bytes);
    return svg_size(bytes);
}
