/* One word of a cook's about a food: its stem, and the part that it plays beside a name. */
#ifndef TABLES_FOOD_WORD_H
#define TABLES_FOOD_WORD_H

#include "tables/groups.h"

enum { FOOD_WORDS_MOST = 24 };

enum word_part {
    WORD_NAME,  /* must be of the food's name */
    WORD_GLUE,  /* of, the, and: never counts */
    WORD_STOP,  /* for, with, to: what follows is not of the name */
    WORD_NOISE, /* fresh, ripe, organic: does not matter */
    WORD_CUT,   /* peeled, chopped: how it is prepared, edible part only */
    WORD_HOW,   /* finely, melted, drained: how it is handled */
    WORD_STATE, /* ground, mashed, whole: matters unless the food has a form of it */
    WORD_SOFT,  /* raw, frozen, unsalted: matters only where another food has it in its name */
    WORD_NUT,   /* toasted, roasted, blanched: does not matter for nuts and seeds */
    WORD_DIET   /* gluten-free, vegan: does not matter for a food that keeps the diet */
};

struct food_word {
    struct slice stem; /* lower case, folded, singular */
    enum word_part part;
    enum diet diet;  /* WORD_DIET */
    size_t from, to; /* bytes in the text */
};

#endif
