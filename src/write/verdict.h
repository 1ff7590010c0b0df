/* How one portion stands, for readers: a sentence, the one thing to do, and two bars. */
#ifndef WRITE_VERDICT_H
#define WRITE_VERDICT_H

#include "write/fragment_context.h"

/* "One portion stays within the limits.", in the words of region i; HTML */
struct slice verdict_sentence(const struct fragment_context *s, size_t i);
void verdict_write(struct text *t, const struct fragment_context *s);

/* what brings most of it, as the post calls it and region i says it; HTML */
struct slice verdict_food(const struct fragment_context *s, const struct load *l, size_t i);
/* "<b>72 %</b>, at most 90 %": middle and 95th percentile, in parts of the limit */
void verdict_share(struct text *t, struct span share);
/* the share where the bars end, so that all of a portion's have one scale */
double verdict_edge(const struct phase_stand *stand);

#endif
