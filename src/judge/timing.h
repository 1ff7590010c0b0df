/* Stated times and temperatures held against what the post declares and promises. */
#ifndef JUDGE_TIMING_H
#define JUDGE_TIMING_H

#include "judge/finding.h"
#include "reckon/microwave.h"
#include "tables/table_cache.h"

void timing_judge(struct arena *a, const struct post *post, const struct schedule *s,
                  const struct microwave *m, const struct tables *t, struct notices *notices);

#endif
