/* The manifest of our outputs in OUT, known even when the ledger is lost. An output is noted before
 * it is put in place; once a press has removed what is old, the manifest names what stands. It is
 * read only where the ledger does not know. */
#ifndef PRESS_MANIFEST_H
#define PRESS_MANIFEST_H

#include <stdatomic.h>

#include "press/ledger.h"
#include "press/session.h"

struct manifest {
    int fd;            /* to add to; -1: not yet */
    bool ledger_found; /* whole; that its pieces are, is another question */
    bool in_step;      /* it is as the ledger last left it */
    bool partial;      /* there may be outputs of ours that it does not name */
    bool removed;      /* some that it names are no longer there */
    atomic_bool added;
};

/* whether the manifest is as the ledger last left it; after the ledger is loaded */
void manifest_check(struct manifest *m, const struct session *s, const struct ledger *l,
                    bool ledger_found);
/* opens it for what will be put in place; where it is not in step, it is written anew first, with
 * all names of before that are known */
bool manifest_begin(struct manifest *m, const struct session *s, struct ledger *l,
                    struct failure *f);
/* outputs that are about to be put in place; may be called by several threads */
bool manifest_note(struct manifest *m, struct slice slug, const struct slice *patterns,
                   size_t count, struct failure *f);
/* calls `each` for every output that it names */
bool manifest_each(const struct session *s,
                   void (*each)(void *ctx, struct slice slug, struct slice pattern), void *ctx,
                   struct failure *f);
/* it names what the ledger's posts have in place, and where the press is not `whole` what else was
 * noted and is there; before the ledger is saved */
bool manifest_keep(struct manifest *m, const struct session *s, struct ledger *l, bool whole,
                   struct failure *f);
void manifest_close(struct manifest *m);

#endif
