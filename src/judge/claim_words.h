/* What a claim means: "coeliac safe", "GF", "gluten-free" are one. A table. */
#ifndef JUDGE_CLAIM_WORDS_H
#define JUDGE_CLAIM_WORDS_H

#include "read/words.h"
#include "tables/cooking.h"

enum claim_kind {
    CLAIM_UNREAD,  /* nothing here knows it */
    CLAIM_DIET,    /* `diet` holds for every ingredient */
    CLAIM_ABSENT,  /* none of `allergens` */
    CLAIM_LOW,     /* one portion within the limit of `group` */
    CLAIM_NONE_OF, /* nothing of `group` at all */
    CLAIM_PORTION, /* one portion within all limits of the phase: see diet_promise.h */
    CLAIM_SUGAR,   /* no sugar is added */
    CLAIM_TIME,    /* `seconds` for all of it */
    CLAIM_COUNT,   /* `count` ingredients */
    CLAIM_ONE_POT,
    CLAIM_MANNER /* "make-ahead": nothing that figures decide; taken as said */
};

struct claim_meaning {
    enum claim_kind kind;
    const char *id;       /* vegan, nut-free, low-lactose, under-time ... or NULL */
    const char *diet_url; /* schema.org RestrictedDiet member, or NULL */
    const char *absent;   /* for readers: "nuts" */
    enum diet diet;
    uint32_t allergens;
    enum group group;
    double seconds, count;
};

void claim_words_read(struct arena *a, const struct word_lists *lists, const struct cooking *c,
                      struct slice text, struct claim_meaning *out);

/* the k-th phrase of the list of claims with what it means, or NULL behind the last; CLAIM_UNREAD:
 * the list names a claim that there is none of */
const char *claim_words_row(const struct word_lists *lists, size_t k, struct claim_meaning *out);

/* the claim that a mistyped one was meant to be, as "gluten-free" for “glutenfree”, or a word of
 * it, as "minutes"; NULL when none is near */
const char *claim_words_nearest(struct arena *a, const struct word_lists *lists, struct slice text);

#endif
