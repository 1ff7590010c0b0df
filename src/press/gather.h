/* The files that gather all posts, joined from their records. */
#ifndef PRESS_GATHER_H
#define PRESS_GATHER_H

#include "press/state.h"

/* joins the gathered files that changed; they wait in their batch */
bool gather_outputs(struct press_state *p, bool *stopped, struct failure *f);
/* puts them in place */
bool gather_place(struct press_state *p, bool flushed, struct failure *f);
/* whether every gathered file is as the ledger says */
bool gather_stands(struct press_state *p);

#endif
