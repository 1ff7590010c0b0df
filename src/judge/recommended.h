/* What recipe results of search engines recommend, and a post lacks. */
#ifndef JUDGE_RECOMMENDED_H
#define JUDGE_RECOMMENDED_H

#include "judge/finding.h"
#include "read/post.h"

void recommended_judge(const struct post *post, struct notices *notices);

#endif
