/* Findings about the portion: over, may exceed, close, unknown, untested foods, traces, sitting. */
#ifndef JUDGE_STANDING_H
#define JUDGE_STANDING_H

#include "judge/finding.h"
#include "reckon/nutrition.h"
#include "reckon/remedy.h"

/* sheet: of the dish in the site's phase; stand is of it */
void standing_judge(struct arena *a, const struct post *post, const struct dish *d,
                    const struct tables *t, const struct sheet *sheet,
                    const struct phase_stand *stand, const struct remedies *remedies,
                    const struct nutrition *nutrition, struct reads *reads,
                    struct notices *notices);

#endif
