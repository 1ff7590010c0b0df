/* Amounts that steps name ("half the oil", "2 tbsp of the sugar", "the remaining rice") added up
 * against the list's. */
#ifndef JUDGE_STEP_AMOUNTS_H
#define JUDGE_STEP_AMOUNTS_H

#include "judge/judging.h"
#include "judge/names.h"

/* notices STEP_AMOUNTS: {what} "3 tbsp of sugar" or "half of “oil”", {more} "2 tbsp" or "all of
 * it" */
void step_amounts_judge(const struct judging *j, const struct named_list *found);

#endif
