/* Stated times and temperatures held against what the post declares and promises. */
#ifndef JUDGE_TIMING_H
#define JUDGE_TIMING_H

#include "judge/judging.h"
#include "reckon/microwave.h"
#include "tables/table_cache.h"

/* notices, with what fills them:
 * TIME_TOTAL: {what} "times"; {more} "total 10 min, but prep 10 min and cook 5 min make 15 min"
 * TIME_DECLARED: {what} "total 10 min" or "prep 5 min, cook 10 min"; {more} as least_time_words
 * TIME_ABOVE: {what} "cook 1 h 15 min"; {more} "45 min"
 * TIME_TITLE: {what} the promise's words; {more} as least_time_words
 * HEAT_PAIR: {what} both writings; {more} what the first one is in the scale of the other
 * HEAT_UNITLESS: {what} the number; {more} empty
 * MICROWAVE_POWER: {what} the duration's words; {more} empty */
void timing_judge(const struct judging *j, const struct microwave *m);

#endif
