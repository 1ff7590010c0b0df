/* The portion panel, cautions and claims: what a reader must know before cooking. */
#ifndef WRITE_PANEL_H
#define WRITE_PANEL_H

#include "write/fragment_context.h"

/* how one portion stands, in words, and what to do about it */
void panel_verdict(struct text *t, const struct fragment_context *s);
/* folded: every group's share as number and bar, and the sitting's */
void panel_figures(struct text *t, const struct fragment_context *s);
/* cautions of no one step; nothing when there is none */
void panel_cautions(struct text *t, const struct fragment_context *s);
/* folded: each caution once, with its source and whom to defer to */
void panel_caution_sources(struct text *t, const struct fragment_context *s);
/* folded: claims that hold, with their grounds; nothing when none does */
void panel_claims(struct text *t, const struct fragment_context *s);
/* "4 fingers", "150 g", "a quarter of the dish": the words for one portion */
void panel_portion_words(struct text *t, const struct outcome *o);

#endif
