/* One amount of a food brought to grams: by its weight, by its volume and density, or by its pieces
 * and what one weighs. */
#ifndef RECKON_MASS_AMOUNT_H
#define RECKON_MASS_AMOUNT_H

#include "reckon/mass.h"

/* what is weighed, and where looks are noted */
struct scale {
    const struct found *found; /* food may be NULL */
    const struct measures *measures;
    int region;
    bool tinned; /* the weight is a tin's, with what it is packed in */
    struct reads *reads;
};

/* `known` is false when the food has no density or weight of a piece for it */
void mass_amount(const struct scale *s, const struct amount *amount, struct measured *out);

#endif
