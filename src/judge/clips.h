/* Whether the clips of a post's video can be so: their times rise, lie within the video's length,
 * and the steps and dishes that they name are there. */
#ifndef JUDGE_CLIPS_H
#define JUDGE_CLIPS_H

#include "read/post.h"

/* what may be published of them, in order */
struct clips {
    struct clip *items;
    size_t count;
    double seconds; /* length of the video; 0: not given, and the last clip has no end */
};

/* a dish of a round-up, as clips may name it: by its title or slug; NULL: it is not there */
struct clip_dishes {
    const struct post **posts;
    size_t count;
};

/* a clip that cannot be so is told, and not among `out`; the step or dish that is not there is left
 * out. dishes: none of a recipe */
void clips_judge(const struct post *post, const struct clip_dishes *dishes, struct notices *notices,
                 struct clips *out);

#endif
