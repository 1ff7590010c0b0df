/* An ingredient line taken apart: read/ingredient_line.h reads it. */
#ifndef READ_WRITTEN_LINE_H
#define READ_WRITTEN_LINE_H

#include "read/amount.h"
#include "read/yaml_node.h"

enum of_it { OF_WHOLE, OF_JUICE, OF_ZEST, OF_JUICE_AND_ZEST };

/* one food with its amounts */
struct written_food {
    struct amount *amounts; /* none: no amount written ("salt", "oil to taste") */
    size_t amount_count;
    struct slice name;    /* words of the food, before any comma; adjectives before it included */
    struct slice after;   /* what stands behind the comma or in parentheses: "seeds removed" */
    struct slice bracket; /* the words of a bracket, which may name the food anew: "(rutabaga)" */
    bool after_shared;    /* `after` stands behind another food, and is said of this one too */
    size_t name_from, name_to; /* bytes in the line's text */
    enum of_it of_it;          /* "juice of 1 lime" */
    bool amount_unread;        /* an amount stands there that could not be read; a notice says so */
    struct amount *extra;      /* "plus 1 tsp to brush", "plus 10 g to finish": NULL when none */
    bool little;               /* "a little", "some": no amount, nor that of its neighbour */
    bool extra_unmeasured;     /* "plus extra to serve": more, without an amount */
    bool to_taste;
};

/* one alternative: one food, or several taken together ("salt and pepper") */
struct written_option {
    struct written_food *foods;
    size_t count;
};

struct ingredient_line {
    struct slice text;         /* as written, without what pasting brought: tags, references */
    const uint32_t *origin;    /* of each byte of the text: its byte as written; NULL: the same */
    struct slice link;         /* the address of a link in the line, or empty */
    size_t link_from, link_to; /* its words, bytes of the text */
    const struct yaml_node *node;   /* where it stands, for places within it; NULL for weigh */
    struct written_option *options; /* the first is the one written first */
    size_t option_count;
    bool optional;
    bool per_portion; /* its amounts are what one eater gets: "1 egg each" */
    bool struck;      /* all of it is struck out: it is not on the list */
    bool has_stays;
    struct span stays; /* part that is eaten, 0..1 */
};

/* the place of bytes from..to of the line */
struct place written_line_place(const struct ingredient_line *line, size_t from, size_t to);

#endif
