/* What a duration is for, by the words around it: spent, inside another, an interval, a storage
 * time. */
#ifndef READ_DURATION_PART_H
#define READ_DURATION_PART_H

#include "read/durations.h"
#include "read/time_span.h"

/* where a duration stands, in words */
struct placed {
    size_t first, end; /* its number and unit */
    size_t from, to;   /* the whole phrase */
    bool whole;        /* "in all": no side or batch multiplies it */
};

/* fills part, at_least, at_most, further and widens `p` over the words that say so; `before` are
 * the durations already found in the text. False: this is no duration ("three-day-old bread"). */
bool duration_part_read(const struct words *w, const struct time_span *s,
                        const struct durations *before, const struct placed *places,
                        struct placed *p, struct duration *d);

#endif
