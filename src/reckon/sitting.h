/* Several portions eaten at one sitting, as one dish: the same food in two of them is one serve,
 * and all count together towards the total of a sitting. */
#ifndef RECKON_SITTING_H
#define RECKON_SITTING_H

#include "reckon/dish.h"

struct sitting_part {
    const struct dish *dish; /* it says how many portions it makes */
    double portions;         /* that are eaten of it; over 0 */
};

struct sitting {
    struct dish dish; /* one portion: what is eaten, all together */
    size_t *parts;    /* by ingredient of it, which part it comes from */
};

/* of each part the portions are reckoned as by itself: of the fewest that its dish makes. Lines are
 * shared with the parts' dishes. */
void sitting_join(struct arena *a, const struct sitting_part *parts, size_t count,
                  struct sitting *out);

#endif
