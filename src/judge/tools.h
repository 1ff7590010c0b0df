/* Tools that the steps need and `equipment:` lacks. */
#ifndef JUDGE_TOOLS_H
#define JUDGE_TOOLS_H

#include "judge/finding.h"
#include "reckon/schedule.h"

/* only where equipment is listed at all; notices TOOL_UNLISTED: {what} the tool's words in the step
 */
void tools_judge(struct arena *a, const struct post *post, const struct schedule *s,
                 struct notices *notices);

#endif
