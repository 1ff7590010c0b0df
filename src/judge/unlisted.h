/* Foods that the method puts in and the list lacks. */
#ifndef JUDGE_UNLISTED_H
#define JUDGE_UNLISTED_H

#include "judge/finding.h"
#include "judge/names.h"

/* notices FOOD_UNLISTED: {what} the food's words in the step, {more} empty; each food once. memo:
 * may be NULL */
void unlisted_judge(const struct names *n, const struct post *post, const struct schedule *s,
                    const struct larder *larder, struct reads *reads, struct notices *notices);

#endif
