/* Cooks' words brought to stems that compare: lower case, no diacritics, singular; and what part
 * each word can play beside the name of a food. */
#ifndef TABLES_FOOD_WORDS_H
#define TABLES_FOOD_WORDS_H

#include "read/word_lists.h"
#include "tables/food_word.h"

/* the words of a text; at most FOOD_WORDS_MOST, what is more is left out */
size_t food_words_split(struct arena *a, const struct word_lists *lists, struct slice text,
                        struct food_word words[FOOD_WORDS_MOST]);

#endif
