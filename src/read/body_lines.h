/* Where the lines and blocks of a body stand in their file. Line breaks are LF, CR LF and CR. */
#ifndef READ_BODY_LINES_H
#define READ_BODY_LINES_H

#include <cmark.h>

#include "base/notice.h"

struct lines {
    struct slice file;
    size_t *starts; /* count + 1: bytes of the file, the last is its end */
    size_t count;
    uint32_t first_line;
    struct lines_cursor *cursor; /* where a place was asked for last */
};

struct lines body_lines_new(struct arena *a, struct slice file, size_t body_from,
                            uint32_t first_line);
/* the i-th line, without its break */
struct slice body_lines_line(const struct lines *l, size_t i);
/* line and column of a byte of the file */
struct place body_lines_place(const struct lines *l, size_t at);
/* the bytes of a block; of a list item those behind its marker */
struct slice body_lines_source_of(const struct lines *l, cmark_node *block);
struct place body_lines_place_of(const struct lines *l, cmark_node *block);

/* where the line that holds byte `at` ends, and where the next one begins */
size_t body_line_end(struct slice s, size_t at);
size_t body_line_next(struct slice s, size_t at);
/* the latter from the former */
size_t body_line_behind(struct slice s, size_t end);

#endif
