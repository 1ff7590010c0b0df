/* What a duration is, once it is found in a text: read/duration.h finds them. */
#ifndef READ_DURATIONS_H
#define READ_DURATIONS_H

#include "base/notice.h"
#include "base/span.h"
#include "read/words.h"

enum duration_part {
    DURATION_SPENT,    /* adds to the step */
    DURATION_INSIDE,   /* "for the last 10 minutes": inside another */
    DURATION_INTERVAL, /* "every 20 seconds", "at 20-second intervals" */
    DURATION_BEFORE,   /* "30 min before serving": says when, not how long */
    DURATION_STORAGE,  /* "keeps 3 days" */
    DURATION_INSTEAD   /* "or 5 minutes in a mixer": instead of the spent one before it */
};

struct duration {
    size_t from, to;           /* bytes in the text: the whole phrase with its multiplier words */
    size_t core_from, core_to; /* the number and unit alone, for <time> */
    struct span seconds;       /* of one go; "overnight" 8 to 12 h; "up to" begins at 0 */
    double times;              /* "per side" 2, "in two batches" 2, else 1 */
    double times_most;         /* "in two or three batches" 3, else as times */
    enum duration_part part;
    bool at_least, at_most, further;
    bool bare; /* "2 more": the unit is that of the duration before it */
};

struct durations {
    struct duration *items;
    size_t count, room;
};

enum { DURATIONS_MOST = 1000 }; /* in one text; no recipe has more, and more are not looked at */

#endif
