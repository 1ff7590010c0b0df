/* How a portion stands against a limit, in one word; and what it may be held against. */
#ifndef RECKON_STANDING_H
#define RECKON_STANDING_H

#include <stddef.h>

#include "tables/groups.h"

/* in order of weight: the standing of a portion is the greatest of its limits' */
enum standing {
    STANDING_WITHIN,
    STANDING_CLOSE,   /* the chance of being over is above close-at */
    STANDING_UNKNOWN, /* a figure that nobody has decides between within and over */
    STANDING_OVER     /* the chance is above over-at */
};

const char *standing_word(enum standing s);     /* within, close, unknown, over */
const char *standing_sentence(enum standing s); /* for readers */

/* the groups, all that count towards the total of one sitting, and a food by the serve that the
 * writer's own table gives it: its grams against that serve */
enum { SITTING = GROUPS, SERVED, COLUMNS };

/* "lactose", "all that counts in one sitting", "its serve": for readers */
const char *column_name(size_t column);
/* "lactose", "sitting", "serve": for data */
const char *column_word(size_t column);

#endif
