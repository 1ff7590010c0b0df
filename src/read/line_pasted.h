/* A line as other pages, mail and notes hand it on: character references, tags, struck text and
 * characters without width. Brought to plain text; each byte remembers where it stood. */
#ifndef READ_LINE_PASTED_H
#define READ_LINE_PASTED_H

#include "base/text.h"

struct pasted_line {
    struct slice text; /* without what pasting brought; the line itself where it brought nothing */
    const uint32_t *origin;        /* of each byte: its byte in the line; NULL: the same byte */
    size_t struck_from, struck_to; /* the first struck text, bytes of the line; to is 0: none */
    bool all_struck;
    struct slice link;         /* the address of the first link, or empty */
    size_t link_from, link_to; /* its words, bytes of the text */
};

struct pasted_line line_pasted(struct arena *a, struct slice line);

#endif
