/* A dish: the ingredients of a post found in the larder and weighed, and how many portions it
 * makes. The one place where lines, foods and grams come together; what follows is arithmetic on
 * it. */
#ifndef RECKON_DISH_H
#define RECKON_DISH_H

#include "read/post.h"
#include "read/words.h"
#include "reckon/mass.h"
#include "tables/table_cache.h"

/* one food of one way to make an ingredient */
struct helping {
    const struct written_food *written;
    const struct food *food; /* NULL: not in the larder */
    const struct form *form;
    struct weighing weighing;
    struct span eaten; /* g edible in the whole dish, after `stays` */
    /* bits of allergens and diets that what was not understood on the line could hold or break: of
     * these nothing can be said */
    uint32_t doubt_allergens, doubt_diets;
    struct slice passed; /* words that nobody understood, or empty */
};

struct dish_option { /* taken together: "salt and pepper" */
    struct helping *helpings;
    size_t count;
};

struct ingredient_names;

struct ingredient {
    struct ingredient_line line;
    struct words *words; /* of the line */
    const struct ingredient_names *ingredient_names;
    size_t part;                 /* of the front matter's parts */
    struct dish_option *options; /* the first is the one written first; more: alternatives */
    size_t option_count;
    bool optional;
};

enum yield_kind { YIELD_NONE, YIELD_COUNT, YIELD_WEIGHT, YIELD_VOLUME };

struct dish {
    int region; /* of the post's measures */
    struct ingredient *ingredients;
    size_t count;
    enum yield_kind yield_kind;
    struct span yield;        /* pieces, g or mL */
    struct slice yield_thing; /* "fingers", as written */
    struct span portion;      /* in the yield's kind; 0 when only `portions` is said */
    struct span portions; /* a range ("serves 4-6"): low 4; what one eats is reckoned from low */
    bool portions_known;
};

/* number of portions that loads are divided by: the fewest */
double dish_divisor(const struct dish *d);

/* what an ingredient is called in its line: the words of its first food, else the line */
struct slice ingredient_called(const struct ingredient *in);

#endif
