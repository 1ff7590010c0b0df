/* What stands behind the verdict: every limit, cautions and claims. */
#ifndef WRITE_PANEL_H
#define WRITE_PANEL_H

#include "write/fragment_context.h"

/* folded: every limit that matters as number and bar, and the sitting's */
void panel_figures(struct text *t, const struct fragment_context *s);
/* cautions of no one step; nothing when there is none */
void panel_cautions(struct text *t, const struct fragment_context *s);
/* folded: each caution once, with its source and whom to defer to */
void panel_caution_sources(struct text *t, const struct fragment_context *s);
/* folded: claims that hold, with their grounds; nothing when none does */
void panel_claims(struct text *t, const struct fragment_context *s);

#endif
