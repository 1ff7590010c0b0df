/* What weighing a written food gives, step by step: reckon/mass.h weighs. */
#ifndef RECKON_WEIGHING_H
#define RECKON_WEIGHING_H

#include "read/ingredient_line.h"
#include "tables/foods.h"

struct measured { /* one amount of a written food brought to grams */
    bool known;
    struct span grams;          /* as bought, as the amount stands; extra terms ("+ 1 tsp") added */
    struct span edible;         /* the edible part of it */
    bool drained;               /* `edible` is what is left of a tin's contents when drained */
    const struct figure *share; /* edible share that leads from one to the other, NULL: all of it */
    enum unit_kind kind;        /* of its first term; a plain count is of pieces */
    size_t from, to;            /* bytes in the line */
    bool has_millilitres, has_pieces;
    struct span millilitres, pieces;
    const char *piece_word;
    const struct figure *unit, *density, *piece; /* the figures used, NULL when not needed */
};

struct weighing {
    bool known; /* grams are known */
    struct measured
        *measured; /* one for each separate measure on the line ("1 cup (170 g)": two) */
    size_t count;
    size_t used;                       /* which of them: a weight before a volume before a count */
    const struct figure *edible_share; /* NULL: all of it */
    struct span grams;                 /* as bought, whole dish, "plus ..." counted in */
    struct span edible;                /* edible part of it */
    bool unmeasured; /* more of it goes in without an amount ("to taste", "plus extra") */
};

#endif
