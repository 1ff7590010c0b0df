/* Lengths in a step, such as a tin's, as each region writes them: inches first where ovens are set
 * in degrees Fahrenheit, centimetres first elsewhere, the other behind. */
#ifndef WRITE_LENGTH_WORDS_H
#define WRITE_LENGTH_WORDS_H

#include "write/fragment_context.h"

struct length { /* bytes from..to of the text: "20 cm", "9-inch", "20 x 30 cm", "9 by 13 inch" */
    size_t from, to;
    double first, second; /* as written; second 0: there is one */
    bool inches;
    bool both;    /* the other unit stands beside it already */
    bool article; /* it begins with "a " or "an ", which hangs on the number */
};

/* the first length at or after `at`; of tins and pans, which are 10 cm (4 inches) or more */
bool length_find(struct slice text, size_t at, struct length *out);
/* as region i of the fragment writes it, as HTML */
struct slice length_words(const struct fragment_context *s, const struct length *l,
                          struct slice words, size_t i);

#endif
