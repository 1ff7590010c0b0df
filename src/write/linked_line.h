/* An ingredient line as it is written out, with the link that stands among its words. */
#ifndef WRITE_LINKED_LINE_H
#define WRITE_LINKED_LINE_H

#include "compile/outcome.h"

struct linked_line {
    struct text *t;
    const struct outcome *o;
    const struct ingredient_line *line;
    size_t from, to; /* the link's words, bytes of the line; to is 0: none that may be published */
    size_t begin;    /* where the line begins in the text */
    bool open;
};

struct linked_line linked_line_begin(struct text *t, const struct outcome *o,
                                     const struct ingredient_line *line);
/* bytes from..to of the line, escaped */
void linked_line_words(struct linked_line *l, size_t from, size_t to);
/* opens or closes the link where it begins or ends at this byte; for who writes words of his own */
void linked_line_advance(struct linked_line *l, size_t at);
void linked_line_end(struct linked_line *l);

#endif
