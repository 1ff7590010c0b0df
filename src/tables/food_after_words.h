/* The words that stand behind a food's comma and name no kind of it, by the lists of words.yaml and
 * by their endings. */
#ifndef TABLES_FOOD_AFTER_WORDS_H
#define TABLES_FOOD_AFTER_WORDS_H

#include "read/word_lists.h"
#include "tables/food_words.h"

/* parts of a food, shapes, measures, tools and times: "skin", "dice", "inch", "towel" */
bool food_after_word_is_idle(const struct word_lists *lists, struct slice stem);
/* words behind which a piece says what is done with it, or where: "until", "in", "with" */
bool food_after_word_ends(const struct word_lists *lists, const struct food_word *w);
/* what is done: "trimmed", "halving", "finely", "cut" */
bool food_after_word_is_deed(const struct word_lists *lists, const struct food_word *w);

#endif
