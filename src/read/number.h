/* Numbers as cooks write them: digits, fractions, words, ranges. */
#ifndef READ_NUMBER_H
#define READ_NUMBER_H

#include "base/span.h"
#include "read/phrase.h"

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

#endif
