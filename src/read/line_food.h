/* The parts of an ingredient line behind its amounts: the name of the food, what joins it to the
 * next, and what stands behind it. For ingredient_line.c and its two halves alone. */
#ifndef READ_LINE_FOOD_H
#define READ_LINE_FOOD_H

#include "read/written_line.h"
#include "read/line_amounts.h"

enum joint { JOINT_NONE, JOINT_OR, JOINT_AND };

struct option_list {
    struct written_option *items;
    size_t count, room;
};

struct held_bracket { /* "(or 2 tsp dried)", read after the line; to is 0 when there is none */
    size_t from, to;
};

struct food_reader {
    struct line_reader amounts;
    struct arena *arena;
    const struct lexicon *lexicon;
    struct notices *notices;
    struct ingredient_line *out;
    struct clean_line clean;
    struct amount_list list; /* of the food at hand */
    struct text after;       /* of the food at hand */
    struct option_list options;
    struct slice label; /* of the line, until the first food has it: "for the sauce" */
    size_t brackets;    /* alternatives in brackets being read: they are not nested */
};

#endif
