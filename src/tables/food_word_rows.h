/* The list of cooks' words: what part each plays beside the name of a food, and the stems of those
 * that a rule for plurals would get wrong. */
#ifndef TABLES_FOOD_WORD_ROWS_H
#define TABLES_FOOD_WORD_ROWS_H

#include "tables/food_word.h"

/* the part of a word by its stem; WORD_NAME of one that is not listed */
enum word_part food_word_part(struct slice stem);
/* the stem of a word that is irregular or another spelling, or NULL */
const char *food_word_stem(struct slice word);

#endif
