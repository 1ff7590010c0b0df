/* Words that mean something together: "gluten free", "free range", "grass-fed", "Greek-style". */
#ifndef TABLES_FOOD_PAIRS_H
#define TABLES_FOOD_PAIRS_H

#include "read/word_lists.h"
#include "tables/food_word.h"

/* gives the words of a name the parts that they play together */
void food_pairs_join(const struct word_lists *lists, struct food_word *words, size_t count);

#endif
