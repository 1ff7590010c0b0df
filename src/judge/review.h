/* A dietitian's review of a post, and whether it still holds: a digest of all that the verdict
 * rests on, part by part, so that it can be told what changed. */
#ifndef JUDGE_REVIEW_H
#define JUDGE_REVIEW_H

#include "judge/finding.h"
#include "reckon/portion.h"

/* what a review is of */
struct reviewed_portion {
    const struct post *post;
    const struct dish *dish;
    const struct phase_stand *phases; /* tables->limits.phase_count of them */
    const struct tables *tables;
};

/* "1-VVVVVVVV-LLLLLLLL-TTTTFFFF-...": how a portion stands and of how many, the limits, and for
 * each ingredient its line as written and its foods' amounts and figures; hexadecimal */
struct slice review_digest(struct arena *a, const struct reviewed_portion *p);

/* whether the post says that it was reviewed, and what was signed is as it was; else notices
 * REVIEW_LAPSED: {what} by whom, {more} what changed */
bool review_judge(struct arena *a, const struct reviewed_portion *p, struct notices *notices);

#endif
