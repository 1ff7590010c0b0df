/* Words of a text against the lists of its language: which phrase of a list stands where, and what
 * stands behind it in the table. */
#ifndef READ_WORDS_LISTED_H
#define READ_WORDS_LISTED_H

#include "read/words.h"

/* whether word i is one of a list of the text's language */
bool words_one_of(const struct words *w, size_t i, enum word_list_number list);
/* the longest phrase of a list that begins at word i: its words, 0 when there is none; *which is
 * its number in the list */
size_t words_longest(const struct words *w, enum word_list_number list, size_t i, size_t *which);
/* the same of one that ends right before word i */
size_t words_longest_before(const struct words *w, enum word_list_number list, size_t i,
                            size_t *which);
/* the number behind the longest phrase of such a list at word i: its words, 0 when there is none */
size_t words_range(const struct words *w, enum word_list_number list, size_t i, struct span *out);
/* the first of those phrases of a list behind which the text stands, anywhere; its place in *at */
const char *words_any_meaning(const struct words *w, enum word_list_number list,
                              const char *meaning, size_t *at);

#endif
