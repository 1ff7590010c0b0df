/* Stretches of time as a method states them, with what part they play in the step. */
#ifndef READ_DURATION_H
#define READ_DURATION_H

#include "read/durations.h"

/* all durations in a text, in order, not overlapping */
void durations_find(struct arena *a, const struct words *w, struct durations *out);
/* one duration and nothing else ("1½ hours", "PT20M", "90 min", "1 h 30 min"), for `times:`;
 * seconds */
bool duration_read(struct arena *a, const struct word_lists *lists, struct slice text,
                   struct span *seconds);
/* ISO 8601 duration of whole seconds, as "PT1H30M"; P..D only at whole days of 24 h */
void duration_write_iso(struct text *t, double seconds);
/* for readers: "1 h 30 min", "90 s" */
void duration_write_words(struct text *t, double seconds);

#endif
