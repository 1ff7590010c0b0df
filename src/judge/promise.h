/* A title or summary that promises a time: "30-minute dal", "on the table in half an hour". */
#ifndef JUDGE_PROMISE_H
#define JUDGE_PROMISE_H

#include "judge/finding.h"
#include "reckon/schedule.h"

/* holds the promises of the title, or else the summary, against the stated durations; notices:
 * TIME_TITLE */
void promise_judge(struct arena *a, const struct post *post, const struct schedule *s, bool title,
                   struct notices *notices);
/* the seconds that a text promises for the whole dish, or 0; its words at from..to (bytes) */
double promise_read(const struct words *w, bool title, size_t *from, size_t *to);
/* the place of bytes from..to of a text of the front matter, where it stands on one line */
struct place promise_place(const struct front_value *front_value, size_t from, size_t to);

#endif
