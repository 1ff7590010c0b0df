/* Numbers as cooks write them: digits, fractions, words, ranges. */
#ifndef READ_NUMBER_H
#define READ_NUMBER_H

#include "base/span.h"
#include "base/text.h"
#include "read/word_lists.h"

struct number {
    struct span value;
    bool about; /* "about 2", "a few" */
    bool word;  /* written as a word ("a", "half a"), not in digits */
    bool range;
};

/* reads one number or range at byte `at`, spaces and "about" before it allowed; bytes read, 0 when
 * there is none. Percentages and words that begin with digits ("5-spice") are none. */
size_t number_read(const struct word_lists *lists, struct slice text, size_t at,
                   struct number *out);

/* whether the byte is of a word: a letter, or part of a character beyond ASCII */
bool word_byte(char c);

/* whether the word, of any case, stands at `at` and ends there */
bool word_stands(struct slice text, size_t at, const char *word);
/* the same, inline, so that most words are passed over by their first letter */
static inline bool
word_at(struct slice text, size_t at, const char *word)
{
    return at < text.length && ((text.at[at] ^ word[0]) & ~0x20) == 0 &&
           word_stands(text, at, word);
}

/* where the next byte that is no space is */
size_t spaces_skip(struct slice text, size_t at);

#endif
