/* A list of phrases that many texts are asked for, prepared so that most are answered at once. */
#ifndef READ_PHRASES_H
#define READ_PHRASES_H

#include "read/words.h"

struct phrases {
    const char *const *items; /* NULL-terminated; NULL: there is no list */
    uint16_t *codes;          /* words_beginning of each */
    uint64_t begins[BEGINNINGS / 64];
    bool open; /* one of them may begin in any way */
};

/* prepares a list, which is kept; NULL is allowed */
void phrases_lay(struct arena *a, const char *const *items, struct phrases *out);
/* words_any over the list */
const char *phrases_any(const struct words *w, const struct phrases *p, size_t from, size_t to,
                        size_t *at);
/* the same over all words */
bool phrases_occur(const struct words *w, const struct phrases *p);

#endif
