/* Whether the clips of a post's video can be so: their times rise, lie within the video's length,
 * and the steps that they name are there. */
#ifndef JUDGE_CLIPS_H
#define JUDGE_CLIPS_H

#include "read/post.h"

/* what may be published of them, in order */
struct clips {
    struct clip *items;
    size_t count;
    double seconds; /* length of the video; 0: not given, and the last clip has no end */
};

/* a clip that cannot be so is told, and not among `out`; the step that is not there is left out */
void clips_judge(const struct post *post, struct notices *notices, struct clips *out);

#endif
