/* The singulars by which names of foods are found again in prose: "leaves" is `leaf`, "berries" is
 * `berry`. */
#ifndef READ_STEM_H
#define READ_STEM_H

#include "base/text.h"

struct stem {
    struct slice text; /* lower case */
    uint64_t code;     /* the same for the same text: a quick no */
};

/* the stem of a folded word; may be the word itself */
struct stem stem_of(struct arena *a, struct slice word);
/* whether it only describes a food ("fresh", "large", "chopped") */
bool stem_describes(const struct stem *s);

static inline bool
stem_equal(const struct stem *one, const struct stem *other)
{
    return one->code == other->code && slice_equal(one->text, other->text);
}

#endif
