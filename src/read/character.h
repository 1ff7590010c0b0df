/* Single characters of a text: what is read as another, as a space or as a fraction. */
#ifndef READ_CHARACTER_H
#define READ_CHARACTER_H

#include "base/text.h"

/* a character that is read as another: any dash as "-", the spaces of typesetters as " " */
struct folding {
    const char *bytes, *as;
};

struct fraction {
    const char *bytes;
    double value;
};

/* the folding, or the fraction, of the character that begins s; NULL: it has none */
const struct folding *character_folding(struct slice s);
const struct fraction *character_fraction(struct slice s);
/* bytes of the character that begins s, which is not empty */
size_t character_length(struct slice s);
/* bytes of space at the start: ASCII, and what folds to a space */
size_t character_space(struct slice s);

#endif
