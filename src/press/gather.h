/* The files that gather all posts, joined from their records. */
#ifndef PRESS_GATHER_H
#define PRESS_GATHER_H

#include "press/pressing.h"

/* joins the gathered files that changed; they wait in their batch */
bool pressing_gather(struct pressing *p, bool *stopped, struct failure *f);
/* puts them in place */
bool pressing_place_gathered(struct pressing *p, bool flushed, struct failure *f);
/* whether every gathered file is as the ledger says */
bool pressing_gathered_stand(struct pressing *p);
/* whether a file of a folder of OUT is one of them */
bool pressing_is_gathered(int folder, struct slice name);

#endif
