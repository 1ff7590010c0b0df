/* The portion panel, cautions and claims: what a reader must know before cooking. */
#ifndef WRITE_PANEL_H
#define WRITE_PANEL_H

#include "write/fragment_context.h"

/* shares as numbers and bars, the standing in words, how to stay within, the sitting */
void panel_portion(struct text *t, const struct fragment_context *s);
/* each caution once, with its source and whom to defer to; nothing when there is none */
void panel_cautions(struct text *t, const struct fragment_context *s);
/* claims that hold, with their grounds; nothing when none does */
void panel_claims(struct text *t, const struct fragment_context *s);
/* "4 fingers", "150 g", "a quarter of the dish": the words for one portion */
void panel_portion_words(struct text *t, const struct outcome *o);

#endif
