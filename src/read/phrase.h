/* Words and phrases in a line's bytes, of any case: whether one stands at a byte, and which of a
 * list. */
#ifndef READ_PHRASE_H
#define READ_PHRASE_H

#include "base/text.h"
#include "read/word_lists.h"

/* whether the byte is of a word: a letter, or part of a character beyond ASCII */
bool phrase_letter(char c);

/* whether the word, of any case, stands at `at` and ends there */
bool phrase_stands(struct slice text, size_t at, const char *word);
/* the same, inline, so that most words are passed over by their first letter */
static inline bool
phrase_stands_at(struct slice text, size_t at, const char *word)
{
    return at < text.length && ((text.at[at] ^ word[0]) & ~0x20) == 0 &&
           phrase_stands(text, at, word);
}

/* where the next byte that is no space is */
size_t phrase_skip(struct slice text, size_t at);

/* bytes of the longest phrase of the list that stands at `at` and ends there as a word does, 0 when
 * there is none; *which, where it is not NULL, is its number in the list */
size_t phrase_at(const struct word_lists *lists, enum word_list_number list, struct slice text,
                 size_t at, size_t *which);
/* whether the text, without white space at its ends, is a phrase of the list */
bool phrase_is(const struct word_lists *lists, enum word_list_number list, struct slice text);

#endif
