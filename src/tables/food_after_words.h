/* The words that stand behind a food's comma and name no kind of it: parts, cuts, tools, measures,
 * and those that a remark is made of. */
#ifndef TABLES_FOOD_AFTER_WORDS_H
#define TABLES_FOOD_AFTER_WORDS_H

#include "tables/food_words.h"

/* parts of a food, shapes, measures, tools and times: "skin", "dice", "inch", "towel" */
bool after_word_is_idle(struct slice stem);
/* words of whole sentences: "I", "use", "leave", "not" */
bool after_word_is_speech(struct slice stem);
/* words behind which a piece says what is done with it, or where: "until", "in", "with" */
bool after_word_ends(const struct food_word *w);
/* what is done: "trimmed", "halving", "finely", "cut" */
bool after_word_is_deed(const struct food_word *w);
/* deeds after which "dry" is what a towel does: "washed", "patted" */
bool after_word_is_wet(struct slice stem);
/* what is done after measuring makes no other food of what was measured: "1 cup rice, boiled" */
bool after_word_is_later(struct slice stem);

#endif
