/* How large a picture is, from the head of its file. */
#ifndef READ_PICTURE_SIZE_H
#define READ_PICTURE_SIZE_H

#include "base/text.h"

struct picture_size {
    double width, height; /* pixels; of SVG the units of its view; 0: not known */
};

/* PNG (W3C, IHDR), GIF89a, JPEG (ITU-T T.81, start of frame), WebP (RFC 9649), SVG (width and
 * height, else viewBox); of anything else, and of a file that is cut off, not known */
struct picture_size picture_size_read(struct slice bytes);

#endif
