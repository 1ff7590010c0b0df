/* What the packet of a food says: its list of ingredients, its figures, what it claims; and what
 * 100 g of it hold by that. */
#ifndef TABLES_LABEL_H
#define TABLES_LABEL_H

#include "base/notice.h"
#include "tables/foods.h"

/* an ingredient, and what the whole list lets it be */
struct label_part {
    struct slice name, all; /* "onion powder"; as it stands, with its bracket */
    struct place place;
    size_t parent;           /* the place of the part that it is in the bracket of, + 1; 0: none */
    double least, most;      /* percent that is said */
    double small;            /* it and those behind are at most so much; 0: not said */
    bool any_order;          /* those in its bracket are in no order */
    const struct food *food; /* NULL: not in the larder */
    bool counted;            /* what it holds counts; else what is in its bracket does */
    bool passed;             /* in the bracket of one that counts itself */
    double grams_least, grams_most; /* in 100 g of the food */
};

/* g in 100 g, as the packet gives it: from what may hide behind rounding and tolerance */
struct label_amount {
    bool given;
    double low, high;
};

struct label_serve {
    double grams; /* 0: none was tested */
    struct slice phase;
    const char *source;
    struct place place;
};

struct label {
    const char *path; /* of its table */
    struct place place, list_place;
    struct slice list; /* the text of its ingredients */
    const char *source;
    const char *region;    /* whose law: "uk"; NULL: not said */
    bool fibre_apart;      /* carbohydrate is without fibre */
    bool small_anywhere;   /* what is under 2 % may stand in any order at the end */
    bool states_allergens; /* in words or capitals: then what is not named is not in it */
    double made_from;      /* g of ingredients in 100 g of it */
    struct label_amount nutrients[NUTRIENTS]; /* sodium in g */
    struct label_amount polyols, starch;
    double said[NUTRIENTS];             /* the same as they stand there */
    struct slice contains, may_contain; /* its sentences on allergens, or empty */
    struct label_part *parts;
    size_t part_count;
    uint32_t claims; /* bits of diets */
    struct label_serve tested;
};

#endif
