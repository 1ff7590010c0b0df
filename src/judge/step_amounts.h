/* Amounts that steps name ("half the oil", "2 tbsp of the sugar", "the remaining rice") added up
 * against the list's. */
#ifndef JUDGE_STEP_AMOUNTS_H
#define JUDGE_STEP_AMOUNTS_H

#include "judge/finding.h"
#include "judge/names.h"
#include "tables/table_cache.h"

/* notices STEP_AMOUNTS: {what} "3 tbsp of sugar" or "half of “oil”", {more} "2 tbsp" or "all of
 * it" */
void step_amounts_judge(struct arena *a, const struct post *post, const struct dish *d,
                        const struct schedule *s, const struct named_list *found,
                        const struct tables *t, struct reads *reads, struct notices *notices);

#endif
