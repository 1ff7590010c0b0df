/* Method and list held against each other: used, in order, amounts that add up, parts, tools, foods
 * that are named but not listed. */
#ifndef JUDGE_METHOD_H
#define JUDGE_METHOD_H

#include "judge/judging.h"

struct mention {                 /* an ingredient named in a step */
    size_t part, step, from, to; /* bytes in the step's text */
    size_t ingredient;
    bool sure; /* no other ingredient goes by these words */
};

struct mentions {
    struct mention *items;
    size_t count, room;
};

/* notices, with what fills them:
 * INGREDIENT_UNUSED: {what} the food's words on the line; {more} empty
 * INGREDIENT_ORDER: {what} the food's words, {more} “the other's”
 * PART_UNKNOWN: {what} the part's name in the method; {more} the list's parts, with a lead
 * STEP_AMOUNTS, TOOL_UNLISTED: see step_amounts.h, tools.h */
void method_judge(const struct judging *j, struct mentions *out);

#endif
