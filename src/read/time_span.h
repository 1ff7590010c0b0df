/* A span of time as a cook writes it: "1½ hours", "an hour and a half", "1h30", "30 seconds to 1
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
    bool unnumbered;  /* "all night", "until the next day" */
    bool attributive; /* "20-minute", "20 minute": an adjective, or in the singular */
};

/* reads the span that begins at word i: how many words, 0 when there is none */
size_t time_span_at(const struct words *w, size_t i, struct time_span *out);
/* a number or range at word i: "1½", "2 to 4", "half", "a couple of", "twenty-five" */
size_t time_span_count(const struct words *w, size_t i, struct span *out);

#endif
