/* The words right before and behind a stretch of time that tell what it is for. */
#ifndef READ_DURATION_SIGNS_H
#define READ_DURATION_SIGNS_H

#include "read/words.h"

/* in the order of TIME_EFFECTS */
enum effect {
    EFFECT_NONE,
    EFFECT_LEAST,
    EFFECT_MOST,
    EFFECT_FURTHER,
    EFFECT_LAST,  /* "the last": inside another */
    EFFECT_FIRST, /* "the first": inside another, unless nothing else is stated */
    EFFECT_EVERY,
    EFFECT_AFTER,
    EFFECT_WITHIN,
    EFFECT_BEFORE,
    EFFECT_TOTAL,
    EFFECT_INSIDE,
    EFFECT_NOTHING /* no duration at all */
};

/* what the longest sign that ends right before word i says, and its words; 0: there is none */
size_t duration_sign_before(const struct words *w, size_t i, enum effect *effect);
/* the same of one that begins at word i */
size_t duration_sign_behind(const struct words *w, size_t i, enum effect *effect);

#endif
