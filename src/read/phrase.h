/* The phrases of a list of words in a line's bytes, of any case. */
#ifndef READ_PHRASE_H
#define READ_PHRASE_H

#include "base/text.h"
#include "read/word_lists.h"

/* bytes of the longest phrase of the list that stands at `at` and ends there as a word does, 0 when
 * there is none; *which, where it is not NULL, is its number in the list */
size_t phrase_at(const struct word_lists *lists, enum word_list_number list, struct slice text,
                 size_t at, size_t *which);
/* whether the text, without white space at its ends, is a phrase of the list */
bool phrase_is(const struct word_lists *lists, enum word_list_number list, struct slice text);

#endif
