/* Method and list held against each other: used, in order, amounts that add up, parts, tools, foods
 * that are named but not listed. */
#ifndef JUDGE_METHOD_H
#define JUDGE_METHOD_H

#include "judge/finding.h"
#include "reckon/dish.h"
#include "reckon/schedule.h"

struct mention {                 /* an ingredient named in a step */
    size_t part, step, from, to; /* bytes in the step's text */
    size_t ingredient;
};

struct mentions {
    struct mention *items;
    size_t count, room;
};

/* notices, with what fills them:
 * INGREDIENT_UNUSED: {what} the food's words on the line; {more} empty
 * INGREDIENT_ORDER: {what} the food's words, {more} “the other's”
 * PART_UNKNOWN: {what} the part's name in the method; {more} the list's parts, with a lead
 * FOOD_UNLISTED, STEP_AMOUNTS, TOOL_UNLISTED: see unlisted.h, step_amounts.h, tools.h
 * memo: may be NULL */
void method_judge(struct arena *a, const struct post *post, const struct dish *d,
                  const struct schedule *s, const struct tables *t, struct reads *reads,
                  struct notices *notices, struct mentions *out);

#endif
