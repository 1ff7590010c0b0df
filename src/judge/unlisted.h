/* Foods that the method puts in and the list lacks. */
#ifndef JUDGE_UNLISTED_H
#define JUDGE_UNLISTED_H

#include "judge/judging.h"

/* notices FOOD_UNLISTED: {what} the food's words in the step, {more} empty; each food once */
void unlisted_judge(const struct judging *j);

#endif
