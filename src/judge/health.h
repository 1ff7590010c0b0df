/* Promises of health that no figure supports: "healthy", "detox", "safe for everyone". */
#ifndef JUDGE_HEALTH_H
#define JUDGE_HEALTH_H

#include "judge/finding.h"
#include "read/post.h"

/* looks at claims, title, summary, keywords, prose and notes; notices CLAIM_HEALTH: {what} the
 * words, {more} empty */
void health_judge(struct arena *a, const struct post *post, struct notices *notices);
/* whether a claim is such a promise; the book may be NULL */
bool health_promises(struct arena *a, const struct word_lists *lists, struct slice text);

#endif
