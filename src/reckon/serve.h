/* The most of one food that a serve may be, alone in a portion: in grams, and what ends it. */
#ifndef RECKON_SERVE_H
#define RECKON_SERVE_H

#include "reckon/portion.h"

enum { SERVE_GRAMS_MOST = 1000 }; /* more of one food is no serve */

struct serve {
    double grams; /* edible; the most that stands within; SERVE_GRAMS_MOST: as much as anyone
                     eats; 0: not even a gram */
    enum standing beyond; /* how a little more stands */
    size_t column;        /* the limit that ends it: a group, SITTING or SERVED; COLUMNS: none */
    bool fresh;           /* by the allowance for fresh produce */
    double allows; /* beyond is unknown: g per 100 g of that group that would be enough, up to
                      twice as much; 0: nothing is */
    enum evidence evidence; /* beyond is unknown: what bounds it */
};

/* a chance of a fifth (close-at) of being over ends it */
struct serve serve_most(struct arena *a, const struct food *f, const struct tables *t, int phase);

/* the same grams as a cook of the region takes them, rounded down: "½ cup", "2 medium"; empty where
 * neither spoons nor pieces are known */
struct slice serve_measure(struct arena *a, const struct food *f, double grams, int region,
                           const struct tables *t);

#endif
