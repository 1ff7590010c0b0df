/* Cautions tried against a post: a wrong practice becomes a finding, a hazard a printed caution. */
#ifndef JUDGE_HAZARDS_H
#define JUDGE_HAZARDS_H

#include "judge/judging.h"

struct fired_caution {
    const struct caution *caution;
    size_t part, step; /* the step that needs it; step SIZE_MAX: the post as a whole */
};

struct hazards {
    struct fired_caution *items; /* each caution once, at the first step that sets it off */
    size_t count;
};

/* notices SAFETY_DANGER, SAFETY_PRACTICE or SAFETY_NOTE by the row's level: {what} the author's
 * words, the clause or from the first that set it off to the last; {more} the row's finding and
 * mend. A practice that the sentence warns against ("never", "do not") is none. */
void hazards_judge(const struct judging *j, struct hazards *out);

#endif
