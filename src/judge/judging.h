/* What the rules of a method look at, all of one post. */
#ifndef JUDGE_JUDGING_H
#define JUDGE_JUDGING_H

#include "judge/finding.h"
#include "reckon/dish.h"
#include "reckon/schedule.h"
#include "tables/table_cache.h"

struct judging {
    struct arena *arena;
    const struct post *post;
    const struct dish *dish;
    const struct schedule *schedule;
    const struct tables *tables;
    const struct names *names;     /* judge/names.h */
    const struct clauses *clauses; /* judge/clauses.h */
    struct reads *reads;
    struct notices *notices;
};

#endif
