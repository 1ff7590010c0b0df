/* A text taken apart into words, numbers and marks, folded to lower case without accents: what
 * durations, temperatures, cautions and names of foods in prose are found in. */
#ifndef READ_WORDS_H
#define READ_WORDS_H

#include "read/word_lists.h"

enum { SENTENCE_MOST = 150, BEGINS = 512 };
enum word_kind { WORD_LETTERS, WORD_NUMBER, WORD_MARK };

struct word {
    struct slice folded; /* lower case; a dash of any length "-", a typographic ' plain */
    double value;        /* of a number: 1.5, 1,5, 1½, 1 1/2, 3/4, 1,000 */
    uint32_t from, to;   /* bytes in the text */
    uint32_t sentence;   /* from 0; a full stop, ! ? and a line's end close one */
    unsigned char kind;  /* enum word_kind */
    bool joined;         /* no space before it */
    bool upper;          /* begins with a capital */
};

struct words {
    struct word *items;
    size_t count, room;
    const struct word_lists *lists; /* of its language; NULL: none, in tests */
    uint64_t begins[BEGINS / 64]; /* a bit for how each word begins: most phrases need no search */
};

/* takes a text apart that is shorter than 4 GiB; the folded words live in the arena */
void words_read(struct arena *a, const struct word_lists *lists, struct slice text,
                struct words *out);
/* the phrases of a list of the text's language */
static inline const char *const *
words_list(const struct words *w, enum word_list_number list)
{
    return word_lists_all(w->lists, list);
}

/* words of `phrase` (lower case, single spaces; a word ending in `*` stands for all that begin so)
 * that stand at word i: how many words they take up, hyphens between them included; 0: not there */
size_t words_phrase(const struct words *w, size_t i, const char *phrase);
/* the same, inline, so that most words are passed over by their first letter */
static inline size_t
words_at(const struct words *w, size_t i, const char *phrase)
{
    return i < w->count && w->items[i].folded.at[0] == phrase[0] ? words_phrase(w, i, phrase) : 0;
}
/* the first place of a phrase that begins in words from..to, or SIZE_MAX */
size_t words_find(const struct words *w, const char *phrase, size_t from, size_t to);
/* the first phrase of a NULL-terminated list that begins in words from..to (its place in *at when
 * not NULL), or NULL */
const char *words_any(const struct words *w, const char *const *phrases, size_t from, size_t to,
                      size_t *at);
/* the first place at or behind word `from` where a phrase of such a list stands, and the first of
 * the list that stands there; or NULL */
const char *words_next(const struct words *w, const char *const *phrases, size_t from, size_t *at);
/* whether one of a list stands anywhere in the text */
static inline bool
words_have(const struct words *w, const char *const *phrases)
{
    return words_any(w, phrases, 0, w->count, NULL) != NULL;
}
static inline bool
word_is(const struct word *w, const char *folded)
{
    return w->folded.at[0] == folded[0] && slice_is(w->folded, folded);
}
/* whether the word is one of a NULL-terminated list of single words */
bool words_among(const struct word *w, const char *const *list);
/* the word that stands at a byte of the text, or the last before it */
size_t words_byte(const struct words *w, size_t byte);
/* first word and end of the sentence that word i stands in, no further than SENTENCE_MOST words */
size_t words_sentence_from(const struct words *w, size_t i);
size_t words_sentence_to(const struct words *w, size_t i);

#endif
