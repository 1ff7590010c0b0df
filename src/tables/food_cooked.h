/* Foods that a line says are cooked: the cooked one is found by its own name or by those of the raw
 * one. */
#ifndef TABLES_FOOD_COOKED_H
#define TABLES_FOOD_COOKED_H

#include "tables/food_search.h"

/* the question with one more word for the name */
bool food_search_with(const struct food_query *q, struct slice stem, struct food_match *match);

/* whether words behind the comma say that it is measured cooked: "rice, cooked and cooled"; not
 * when they say how or for how long, which is the method: "rice, cooked until tender" */
bool food_said_cooked(const struct word_lists *lists, const struct food_word *words, size_t count);

/* "400 g dry pasta, cooked": what is measured is dry */
bool food_said_raw(const struct food_query *q);

/* "cooked pasta shells": a food that has a cooked one, by a name that only the raw one has */
bool food_search_said_cooked(const struct food_query *q, struct food_match *match);

/* "1 cup rice, cooked": the words behind the comma, when they say that it is measured cooked, not
 * how or for how long it is to be cooked */
bool food_search_cooked(const struct food_query *q, const struct food_word *words, size_t count,
                        struct food_match *match);

#endif
