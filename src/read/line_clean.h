/* An ingredient line without what does not count: emphasis, links, footnote marks, bullets, runs of
 * white space. Each byte remembers where it stood. */
#ifndef READ_LINE_CLEAN_H
#define READ_LINE_CLEAN_H

#include "base/text.h"

struct clean_line {
    char *bytes;
    uint32_t *origin; /* of each byte, and of the end: its byte in the line as written */
    size_t length;
};

struct clean_line line_clean(struct arena *a, struct slice text);
/* takes bytes from..to out, and a doubled space where they stood */
void line_erase(struct clean_line *line, size_t from, size_t to);
/* adds bytes that all stood at `origin`, or bytes begin..end of another line; there must be room */
void line_put(struct clean_line *line, struct slice bytes, uint32_t origin);
void line_copy(struct clean_line *to, const struct clean_line *from, size_t begin, size_t end);
/* bytes from..to of the clean line, in the line as written */
void line_origin(const struct clean_line *line, size_t from, size_t to, size_t *origin_from,
                 size_t *origin_to);

#endif
