#include "judge/picture_bytes.h"

#include "judge/drawing_scan.h"

/* What files of a kind begin with, as their specifications say: GIF89a, section 17; ITU-T T.81,
 * annex B (start of image, then a marker); PNG, section 5.2; RFC 9649 (WebP); ISO/IEC 14496-12,
 * section 4.3 (the file type box of AVIF, behind its size). */
static const struct {
    const char *ending;
    size_t at, length;
    const char *bytes;
    const char *behind; /* what must come at byte 8, too */
} kinds[] = {
    {"gif", 0, 6, "GIF87a", ""},
    {"gif", 0, 6, "GIF89a", ""},
    {"jpg", 0, 3, "\xff\xd8\xff", ""},
    {"jpeg", 0, 3, "\xff\xd8\xff", ""},
    {"png", 0, 8, "\x89PNG\r\n\x1a\n", ""},
    {"webp", 0, 4, "RIFF", "WEBP"},
    {"avif", 4, 4, "ftyp", "avif"},
    {"avif", 4, 4, "ftyp", "avis"},
    {"avif", 4, 4, "ftyp", "mif1"},
    {"avif", 4, 4, "ftyp", "miaf"},
};

static bool
ends_in(struct slice file, const char *ending)
{
    const size_t length = strlen(ending);
    return file.length > length &&
           slice_is_anycase(slice_part(file, file.length - length, file.length), ending);
}

enum picture_found
picture_bytes_judge(struct slice file, struct slice bytes)
{
    if (ends_in(file, ".svg"))
        switch (drawing_scan(bytes)) {
        case DRAWING_STILL:
            return PICTURE_FOUND;
        case DRAWING_ACTIVE:
            return PICTURE_ACTIVE;
        case DRAWING_NONE:
            return PICTURE_OTHER_KIND;
        }
    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++) {
        const struct slice begin = slice_part(bytes, kinds[i].at, kinds[i].at + kinds[i].length);
        if (ends_in(file, kinds[i].ending) &&
            slice_equal(begin, (struct slice){kinds[i].bytes, kinds[i].length}) &&
            slice_begins(slice_part(bytes, 8, bytes.length), kinds[i].behind))
            return PICTURE_FOUND;
    }
    return PICTURE_OTHER_KIND;
}
