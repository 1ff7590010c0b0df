/* The head of a name: the noun that says what a food is. The words about it say of which kind, so
 * that chocolate milk is milk and milk chocolate is chocolate. */
#ifndef TABLES_FOOD_HEAD_H
#define TABLES_FOOD_HEAD_H

#include "tables/food_query.h"

/* the stem of the noun that a name ends in: before "of" and "with", over words that describe */
struct slice food_head(const struct food_word *words, size_t count);

/* how well the used words of a question stand as the name does */
enum head_fit { HEAD_OTHER, HEAD_PUT_IN, HEAD_SAME, HEAD_EXACT };

/* whether both have one head: the same noun last, or one behind the comma, or behind it a word of
 * colour or state, or a word that names the food by itself ("cheese cheddar"). The search makes it
 * exact where several foods have the words and they stand as in this one's name ("cream of
 * coconut") */
enum head_fit food_head_fits(const struct food_query *q, uint32_t used,
                             const struct food_name *name);

/* whether the used words stand as in the name, one behind the other; none of them put in */
bool food_head_in_order(const struct food_query *q, uint32_t used, const struct food_name *name);

/* whether word `i`, which is not of the name, stands as the head and makes it something else: "kale
 * crisps" */
bool food_head_strange(const struct food_query *q, size_t i);

/* whether what the words say that a food is with is another food: "tomatoes with garlic" is no
 * tomato, "thighs with skin" are thighs; words[0] is "with" */
bool food_with_other(const struct larder *l, struct arena *a, const struct food_word *words,
                     size_t count);

#endif
