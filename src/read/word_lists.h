/* The lists of words by which English is read: rows of a table (content/tables/words.yaml), to
 * which a blog adds its own. A list is a row of WORD_LIST_ROWS and an entry of the table; words are
 * in lower case without accents, as words_read folds them. */
#ifndef READ_WORD_LISTS_H
#define READ_WORD_LISTS_H

#include "base/map.h"
#include "base/reads.h"

/* name here, name in the table, the kinds that each of its words is one of: NULL where it is a list
 * and no more, word_lists_text where any text stands behind a word */
#define WORD_LIST_ROWS(X)                                    \
    X(WORDS_DESCRIBING, "describing", NULL)                  \
    X(WORDS_DIET_PROMISED, "diet-promised", NULL)            \
    X(WORDS_DISEASE_PROMISED, "disease-promised", NULL)      \
    X(WORDS_PROMISE_ELSE, "promise-of-something-else", NULL) \
    X(WORDS_PROMISE_DENIED, "promise-denied", NULL)          \
    X(WORDS_BEHIND_IDLE, "behind-idle", NULL)                \
    X(WORDS_BEHIND_SPEECH, "behind-speech", NULL)            \
    X(WORDS_BEHIND_ENDS, "behind-ends", NULL)                \
    X(WORDS_BEHIND_DEEDS, "behind-deeds", NULL)              \
    X(WORDS_BEHIND_NOUNS, "behind-nouns", NULL)              \
    X(WORDS_BEHIND_WET, "behind-wet", NULL)                  \
    X(WORDS_BEHIND_LATER, "behind-later", NULL)              \
    X(WORDS_BEHIND_STATES, "behind-states", NULL)

#define WORD_LIST_NUMBER(number, name, kinds) number,
enum word_list_number { WORD_LIST_ROWS(WORD_LIST_NUMBER) WORD_LISTS };
#undef WORD_LIST_NUMBER

struct word_list {
    const char **words;  /* NULL-terminated, in the order of the table; never NULL once loaded */
    const char **values; /* what stands behind each: a kind or a text; NULL: nothing */
    int *kinds;          /* the number of each kind; NULL: there are none */
    size_t count, room;
    struct map places; /* word -> number + 1 */
};

struct word_lists {
    struct entry entry; /* "words": all of them */
    struct word_list lists[WORD_LISTS];
};

extern const char *const word_lists_text[];
/* the name of a list, and the kinds of its words, as in WORD_LIST_ROWS */
const char *word_lists_name(int list);
const char *const *word_lists_kinds(int list);

/* Without lists (NULL) nothing is in any: dishes made by hand in tests. */

/* the phrases of a list, for words_any and word_among */
const char *const *word_lists_all(const struct word_lists *w, enum word_list_number list);
/* whether the word is one of the list */
bool word_lists_have(const struct word_lists *w, enum word_list_number list, struct slice word);
/* what stands behind the word in the table, or NULL where it is not in the list */
const char *word_lists_value(const struct word_lists *w, enum word_list_number list,
                             struct slice word);
/* the number of the word's kind, or -1 */
int word_lists_kind(const struct word_lists *w, enum word_list_number list, struct slice word);

#endif
