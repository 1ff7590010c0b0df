/* Lists of words and phrases that nearly every word of a text is held against, in rows by the
 * letter they begin with: ['a' - 'a'] = {"add", "adding"}. The last row, for what begins with no
 * letter, stays empty. */
#ifndef READ_INITIALS_H
#define READ_INITIALS_H

#include "read/words.h"

enum { INITIALS = 27 };

/* the row that a word (lower case, not empty) stands in, if anywhere */
static inline size_t
initial_of(struct slice word)
{
    const size_t letter = (size_t)(unsigned char)word.at[0] - 'a';
    return letter < INITIALS - 1 ? letter : INITIALS - 1;
}

/* how far the phrase goes like the word; the first letters are the same */
static inline size_t
initials_alike(const char *phrase, struct slice word)
{
    size_t n = 1;
    while (n < word.length && phrase[n] == word.at[n])
        n++;
    return n;
}

static inline bool
initials_same(const char *phrase, struct slice word)
{
    return initials_alike(phrase, word) == word.length && phrase[word.length] == '\0';
}

/* whether the word is one of its row, of at most `width` words */
static inline bool
initials_have(const char *const *row, size_t width, struct slice word)
{
    for (const char *const *end = row + width; row < end && *row != NULL; row++)
        if (initials_same(*row, word))
            return true;
    return false;
}

/* words_phrase of a phrase that begins with the letter that word i begins with */
static inline size_t
initials_words(const char *phrase, const struct words *w, size_t i)
{
    const struct slice word = w->items[i].folded;
    const size_t n = initials_alike(phrase, word);
    if (phrase[n] == '\0' && n == word.length)
        return 1;
    return phrase[n] == '*' || (phrase[n] == ' ' && n == word.length) ? words_phrase(w, i, phrase)
                                                                      : 0;
}

/* the first phrase of its row that stands at word i, or NULL */
static inline const char *
initials_at(const char *const *row, size_t width, const struct words *w, size_t i)
{
    for (const char *const *end = row + width; row < end && *row != NULL; row++)
        if (initials_words(*row, w, i) > 0)
            return *row;
    return NULL;
}

/* whether a phrase of rows that lie `width` apart begins in words from..to */
bool initials_occur(const char *const *rows, size_t width, const struct words *w, size_t from,
                    size_t to);

#define INITIALS_WIDTH(rows) (sizeof(rows)[0] / sizeof *(rows)[0])
#define INITIALS_HAVE(rows, word) \
    initials_have((rows)[initial_of(word)], INITIALS_WIDTH(rows), (word))
#define INITIALS_AT(rows, words, i) \
    initials_at((rows)[initial_of((words)->items[i].folded)], INITIALS_WIDTH(rows), (words), (i))
#define INITIALS_OCCUR(rows, words, from, to) \
    initials_occur(&(rows)[0][0], INITIALS_WIDTH(rows), (words), (from), (to))

#endif
