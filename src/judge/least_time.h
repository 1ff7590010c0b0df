/* What the stated durations of a method come to at the least, held against what is declared,
 * promised or claimed. */
#ifndef JUDGE_LEAST_TIME_H
#define JUDGE_LEAST_TIME_H

#include "reckon/schedule.h"
#include "read/post.h"

/* "at least 8 h 8 min: “overnight” in step 1, “8 minutes” in step 2" */
struct slice least_time_words(struct arena *a, const struct post *post, const struct schedule *s);
/* whether the stated durations come to clearly more than `seconds`: more than 5 % above it */
bool least_time_exceeds(const struct schedule *s, double seconds);

#endif
