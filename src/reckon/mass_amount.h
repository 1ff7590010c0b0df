/* One amount of a food brought to grams: by its weight, by its volume and density, or by its pieces
 * and what one weighs. */
#ifndef RECKON_MASS_AMOUNT_H
#define RECKON_MASS_AMOUNT_H

#include "reckon/weighing.h"

/* what is weighed, and where looks are noted */
struct scale {
    const struct found *found; /* food may be NULL */
    const struct measures *measures;
    int region;
    const struct form *tin; /* what is weighed is a tin's, with what it is packed in; or NULL */
    bool tin_drained;       /* the edible share of the tin is what is eaten, else all of it */
    struct reads *reads;
};

/* the form of a tin that the measure is of; NULL where the larder has none */
const struct form *mass_tin(const struct food *f);

/* `known` is false when the food has no density or weight of a piece for it */
void mass_amount(const struct scale *s, const struct amount *amount, struct measured *out);

#endif
