/* The words by which a method may call an ingredient, and where its steps do. */
#ifndef JUDGE_NAMES_H
#define JUDGE_NAMES_H

#include "base/map.h"
#include "judge/passages.h"
#include "reckon/dish.h"

enum { NAME_WORDS_MOST = 12 };

/* one food of an ingredient: "smoked paprika" is `smoked` and `paprika`, the last its head */
struct name {
    size_t ingredient;
    struct slice
        stems[NAME_WORDS_MOST]; /* singular, lower case; colours, sizes and cuts left out */
    size_t count;
    size_t head; /* of them; count when there is none */
};

struct names {
    struct arena *arena;
    struct name *items;
    size_t count, room;
    struct map by_stem; /* stem -> struct name_list * */
    struct map known;   /* stems of all lines, the title, parts and yield: nothing new in a step */
};

/* a place in a step where an ingredient is named */
struct named {
    size_t step;      /* number in the schedule */
    size_t from, end; /* words of the step */
    size_t ingredient;
    bool sure; /* no other ingredient goes by these words */
};

struct named_list {
    struct named *items;
    size_t count, room;
};

/* the singular of a folded word: leaves -> leaf, berries -> berry; may be the word itself */
struct slice names_stem(struct arena *a, struct slice word);
/* whether the word only describes ("fresh", "large", "chopped") */
bool names_describes(struct slice stem);

void names_lay(struct arena *a, const struct post *post, const struct dish *d, struct names *out);
/* all places where steps name ingredients, in order */
void names_find(const struct names *n, const struct dish *d, const struct schedule *s,
                struct named_list *out);
/* ingredients that the steps use in any way that a reader would understand: by a word of the name,
 * by another name of the food, by what kind of food it is ("the vegetables"), or with all the rest
 * ("the dry ingredients"); out has dish->count items */
void names_used(const struct names *n, const struct dish *d, const struct schedule *s,
                const struct larder *larder, const struct named_list *found, bool *out);

#endif
