/* The head of a page: title, byline, picture, and one line of portions and times. */
#ifndef WRITE_OPENING_H
#define WRITE_OPENING_H

#include "write/fragment_context.h"

/* title and summary, by whom and when */
void opening_head(struct text *t, const struct fragment_context *s);
/* the lead picture, where there is one; loaded at once, for it is what is seen first */
void opening_picture(struct text *t, const struct fragment_context *s);
/* "Serves 4. Takes 1 h 15 min: 20 min preparation, 30 min cooking, 25 min resting." */
void opening_facts(struct text *t, const struct fragment_context *s);
/* a link to the film, where there is one */
void opening_video(struct text *t, const struct fragment_context *s);

#endif
