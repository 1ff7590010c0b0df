/* Stretches of time that a cook names without a number: overnight, all day, until the next morning.
 */
#ifndef READ_TIME_NIGHT_H
#define READ_TIME_NIGHT_H

#include "base/span.h"
#include "read/words.h"

/* the stretch at word i: how many words, 0 when there is none. Overnight is 8 to 12 hours, all day
 * 8 to 10: common practice, no source. */
size_t time_night_at(const struct words *w, size_t i, struct span *seconds);
/* "the day before", "the night before": when a thing is begun, and so how long it then waits */
size_t time_night_before(const struct words *w, size_t i, struct span *seconds);

#endif
