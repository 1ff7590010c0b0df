/* The manifest of our outputs in OUT, known even when the ledger is lost. An output is noted before
 * it is put in place; once a press has removed what is old, the manifest names what stands. It is
 * read only where the ledger does not know. */
#ifndef PRESS_MANIFEST_H
#define PRESS_MANIFEST_H

#include "press/pressing.h"

/* whether the manifest is as the ledger last left it; after the ledger is loaded */
void manifest_check(struct pressing *p);
/* opens the manifest for what will be put in place; where it is not in step, it is written anew
 * first, with all names of before that are known */
bool manifest_begin(struct pressing *p, struct failure *f);
/* outputs that are about to be put in place; may be called by several threads */
bool manifest_note(struct pressing *p, struct slice slug, const struct slice *patterns,
                   size_t count, struct failure *f);
/* calls `each` for every output that the manifest names */
bool manifest_each(struct pressing *p,
                   void (*each)(struct pressing *p, struct slice slug, struct slice pattern),
                   struct failure *f);
/* the manifest names what the ledger's posts have in place; before the ledger is saved */
bool manifest_keep(struct pressing *p, struct failure *f);

#endif
