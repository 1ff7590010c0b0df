/* Lists of phrases that many texts are asked for, put in order by their first words, so that one
 * pass over a text finds where any phrase of any list stands. One book per worker; it learns each
 * list when a text is first asked for it, and what is asked is answered the same with and without
 * it. */
#ifndef READ_PHRASEBOOK_H
#define READ_PHRASEBOOK_H

#include "read/words.h"

struct phrasebook;

enum { LISTS_MOST = 512 };

/* which lists occur in any of some texts */
struct phrase_sum {
    struct phrasebook *book;
    size_t texts, known; /* lists that all of the texts are marked with */
    uint64_t lists[LISTS_MOST / 64];
};

/* NULL when there is no memory: then texts are looked through list by list */
struct phrasebook *phrasebook_open(void);
void phrasebook_close(struct phrasebook *b);
/* forgets all lists, because those of the tables are gone */
void phrasebook_forget(struct phrasebook *b);
/* notes where the lists known by now occur in the words, once more when there are new ones; the
 * book outlives the words. NULL is allowed. */
void phrasebook_mark(struct phrasebook *b, struct arena *a, struct words *w);
/* how many lists the book knows by now; without a book none */
size_t phrasebook_lists(const struct phrasebook *b);
/* a text more; at first the sum is {0} */
void phrasebook_sum(struct phrase_sum *s, const struct words *w);
/* the texts of another sum too */
void phrasebook_join(struct phrase_sum *s, const struct phrase_sum *more);
/* false: the list, which is not NULL, occurs in none of the texts */
bool phrasebook_may(const struct phrase_sum *s, const char *const *list);
/* words_any from the marks; false where the text is not marked with that list */
bool phrasebook_any(const struct phrase_hits *hits, const char *const *list, size_t from, size_t to,
                    const char **found, size_t *at);
/* the same for words_next */
bool phrasebook_next(const struct phrase_hits *hits, const char *const *list, size_t from,
                     const char **found, size_t *at);

#endif
