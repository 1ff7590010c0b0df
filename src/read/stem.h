/* The singulars by which names of foods are found again in prose: "leaves" is `leaf`, "berries" is
 * `berry`. */
#ifndef READ_STEM_H
#define READ_STEM_H

#include "read/word_lists.h"

struct stem {
    struct slice text; /* lower case */
    uint64_t code;     /* the same for the same text: a quick no */
};

/* the singular of a folded word that ends in s; may be the word itself */
struct slice stem_singular(struct arena *a, struct slice word);
/* whether it only describes a food ("fresh", "large", "chopped") */
bool stem_describes(const struct word_lists *lists, const struct stem *s);

/* the code of a stem: from all bytes of a short one, from both ends of a long one */
static inline uint64_t
stem_code(struct slice s)
{
    uint64_t first = 0, last = 0;
    if (s.length >= sizeof first) {
        memcpy(&first, s.at, sizeof first);
        memcpy(&last, s.at + s.length - sizeof last, sizeof last);
    } else if (s.length >= 4) {
        memcpy(&first, s.at, 4);
        memcpy(&last, s.at + s.length - 4, 4);
    } else if (s.length > 0) {
        first = (unsigned char)s.at[0];
        last = (uint64_t)(unsigned char)s.at[s.length / 2] << 8 | (unsigned char)s.at[s.length - 1];
    }
    const uint64_t both =
        (first ^ (last >> 29 | last << 35) ^ s.length) * UINT64_C(0x9e3779b97f4a7c15);
    return both ^ both >> 32;
}

/* the stem of a folded word */
static inline struct stem
stem_of(struct arena *a, struct slice word)
{
    if (word.length > 0 && word.at[word.length - 1] == 's')
        word = stem_singular(a, word);
    return (struct stem){word, stem_code(word)};
}

static inline bool
stem_equal(const struct stem *one, const struct stem *other)
{
    return one->code == other->code && slice_equal(one->text, other->text);
}

#endif
