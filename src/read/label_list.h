/* The list of ingredients of a packet: its text cut into ingredients, nested as its brackets are,
 * with the percentages that are given; and the sentences that name allergens. */
#ifndef READ_LABEL_LIST_H
#define READ_LABEL_LIST_H

#include "base/list.h"
#include "read/word_lists.h"
#include "read/words.h"

enum { LABEL_DEPTH_MOST = 4, LABEL_ITEMS_MOST = 64 };

struct label_item {
    struct slice name;  /* "onion powder": without percentage, brackets and words of function */
    struct slice all;   /* the ingredient as it stands, its brackets too */
    size_t parent;      /* the place of the item that it is in the bracket of, + 1; 0: the packet */
    double least, most; /* percent that is said, with half a unit of its last digit; most 100 where
                           nothing is */
    double small;       /* "2 % or less of": what it and those behind are at most; 0: not said */
    bool any_order;     /* its bracket is "in varying proportions", or parts of it "and/or" */
};

enum label_saying { LABEL_CONTAINS, LABEL_MAY_CONTAIN, LABEL_IDLE, LABEL_UNREAD };

/* a sentence that is no ingredient: "May contain traces of nuts" */
struct label_statement {
    enum label_saying saying;
    struct slice text; /* what is contained */
};

struct label_list {
    LIST_OF(struct label_item) items; /* each before those in its bracket */
    LIST_OF(struct label_statement) statements;
    bool too_many; /* more items or deeper brackets than are read */
};

/* the list in the text, whose bytes the slices point into */
void label_list_read(struct arena *a, struct slice text, const struct word_lists *lists,
                     struct label_list *out);

#endif
