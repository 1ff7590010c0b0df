/* A stretch of time as a cook writes it: "1½ hours", "an hour and a half", "1h30", "30 seconds to 1
 * minute", "2 hours or overnight". The number and the unit alone; what it is for is duration.h. */
#ifndef READ_TIME_SPAN_H
#define READ_TIME_SPAN_H

#include "base/span.h"
#include "read/words.h"

struct time_span {
    struct span seconds;
    double unit;      /* s of its last unit: 60 for "5 minutes" */
    bool further;     /* "5 more minutes" */
    bool at_least;    /* "2 hours or longer" */
    bool attributive; /* "20-minute", "20 minute": an adjective, or in the singular */
};

/* by the first letter, which letters come second and third in the words that a stretch or a count
 * begins with; bit 0 is `a` */
extern const struct time_span_letters {
    uint32_t second, third;
} time_span_letters[26];

/* false: no stretch and no count begins with the word, as with nearly all words of a text */
static inline bool
time_span_may_begin(const struct word *w)
{
    const struct slice s = w->folded;
    const size_t letter = (size_t)(unsigned char)s.at[0] - 'a';
    if (w->kind != WORD_LETTERS || letter >= 26)
        return w->kind == WORD_NUMBER;
    if (s.length < 3)
        return letter == 0; /* "a", "an" */
    const struct time_span_letters *l = &time_span_letters[letter];
    return (l->second >> (((unsigned)(unsigned char)s.at[1] - 'a') & 31) & 1) != 0 &&
           (l->third >> (((unsigned)(unsigned char)s.at[2] - 'a') & 31) & 1) != 0;
}

/* reads the stretch that begins at word i: how many words, 0 when there is none */
size_t time_span_at(const struct words *w, size_t i, struct time_span *out);
/* a number or range at word i: "1½", "2 to 4", "half", "a couple of", "twenty-five" */
size_t time_span_count(const struct words *w, size_t i, struct span *out);

#endif
