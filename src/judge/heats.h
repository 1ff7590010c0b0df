/* Heats and microwave times that cannot be meant as they are written. */
#ifndef JUDGE_HEATS_H
#define JUDGE_HEATS_H

#include "judge/judging.h"

/* notices HEAT_IMPLAUSIBLE: {what} the heat as written; {more} what is wrong with it.
 * MICROWAVE_PAIR: {what} both times; {more} "1000 W for 5 min, 700 W for 3 min" */
void heats_judge(const struct judging *j);

#endif
