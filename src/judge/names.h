/* The words by which a method may call an ingredient, and where its steps do. */
#ifndef JUDGE_NAMES_H
#define JUDGE_NAMES_H

#include "base/list.h"
#include "judge/judging.h"
#include "judge/passages.h"
#include "read/stem.h"
#include "reckon/dish.h"

/* a name of an ingredient, by one of its stems */
struct names_link {
    const struct name *name;
    const struct stem *stem;
    size_t ingredient;
    uint32_t next; /* number of the next link in its slot + 1; 0: there is none */
};

struct names {
    struct arena *arena;
    const struct dish *dish;
    const struct word_lists *lists;
    struct names_link *links;   /* of one stem in the order of the list */
    uint32_t *slots;            /* by the code of the stem: number of the first link + 1 */
    size_t slot_count;          /* a power of two */
    LIST_OF(struct stem) known; /* of the title, summary, parts and yield: nothing new in a step */
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

void names_read(struct arena *a, const struct post *post, const struct dish *d,
                const struct word_lists *lists, struct names *out);
/* whether a line of the list, the title or the like has a word of this stem */
bool names_know(const struct names *n, const struct stem *s);
/* an ingredient whose line has a word like this, of those that no name has ("chips" for potatoes
 * cut into chips); SIZE_MAX: none has, or the word describes */
size_t names_other(const struct names *n, struct slice word);
/* the places in words of a part where ingredients are named, in order; step: to be noted with them
 */
void names_find_in(const struct names *n, const struct words *w, size_t part, size_t step,
                   struct named_list *out);
/* the first of what was found in one text that ends behind word i, in the text's order; its count
 * where there is none */
size_t names_behind(const struct named_list *named, size_t i);
/* all places where steps name ingredients, in order */
void names_find(const struct names *n, const struct schedule *s, struct named_list *out);
/* ingredients that the steps use in any way that a reader would understand: by a word of the name,
 * by another name of the food, by what kind of food it is ("the vegetables"), or with all the rest
 * ("the dry ingredients"); out has dish->count items */
void names_used(const struct judging *j, const struct named_list *found, bool *out);
/* whether an ingredient is of a kind of food, in any way to make it */
bool names_of_kind(const struct ingredient *in, const struct food_kind *k);

#endif
