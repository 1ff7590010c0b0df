/* The body of a post: prose, method (sections of steps) and notes, kept as CommonMark nodes for
 * writing and as plain text for reading durations, temperatures and foods. */
#ifndef READ_BODY_H
#define READ_BODY_H

#include <cmark.h>

#include "base/notice.h"
#include "read/body_links.h"
#include "read/words.h"

struct step_run { /* a text or code node of a step, and where its text begins in the step's */
    cmark_node *node;
    size_t from;
};

struct step {
    struct slice text;   /* plain text of the item: text and code; breaks and blocks as one space */
    struct words words;  /* of the text */
    cmark_node *node;    /* the list item, or the block (mostly a paragraph) */
    struct place place;  /* its first character */
    struct slice source; /* its bytes in the file, to find the place of words */
    struct step_run *runs;
    size_t run_count;
};

struct method_part {
    struct slice name; /* heading under "Method"; empty when there is none */
    struct place place;
    struct step *steps;
    size_t count;
};

struct body_section {
    cmark_node *first, *last; /* siblings, both included; NULL when empty */
    struct slice text;        /* plain text of all of it */
    struct words words;       /* of the text */
};

struct body {
    cmark_node *document;
    struct body_section prose; /* before the first known heading */
    struct method_part *parts;
    size_t part_count;
    bool has_method;
    struct body_section notes; /* under "Notes" (without that heading, if it comes first), and any
                                  other section behind the first known one, headings included */
    struct body_links links;   /* to other posts */
    struct slice source;       /* the whole file */
};

enum body_kind {
    BODY_RECIPE, /* prose, a method under its heading, notes */
    BODY_DISH,   /* of a round-up: the method may stand there without a heading of its own */
    BODY_PROSE   /* of a round-up itself: nothing but prose */
};

/* where a body stands in its file: bytes from..to, the first of them in line first_line */
struct body_range {
    struct slice file;
    size_t from, to;
    uint32_t first_line;
    const struct word_lists *lists; /* by which its words are read */
};

struct body_heading {
    int level;
    struct slice text;
    size_t from;   /* byte of the file at which its line begins */
    size_t behind; /* byte at which the line behind it begins, in line next_line */
    uint32_t next_line;
    struct place place;
};

struct body_headings {
    struct body_heading *items;
    size_t count, room;
};

/* all headings that stand at the top of the body, in order */
void body_headings_find(struct arena *a, const struct body_range *range, struct body_headings *out);

/* parses with cmark (memory from `a`, lent); raw HTML and links that are not http, https, mailto or
 * relative are noticed, and taken out of the tree, so that nobody can publish them; so are hidden
 * characters. Whoever renders the nodes must lend an arena too. */
void body_read(struct arena *a, const struct body_range *range, enum body_kind kind,
               struct notices *notices, struct body *out);

/* the place in the file of bytes from..to of a step's text: exact where the words stand unbroken in
 * the source, else the step */
struct place body_step_place(const struct step *step, size_t from, size_t to);

#endif
