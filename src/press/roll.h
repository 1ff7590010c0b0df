/* The roll of our outputs in OUT, known even when the ledger is lost. An output is noted before it
 * is put in place; once a press has removed what is old, the roll names what stands. It is read
 * only where the ledger does not know. */
#ifndef PRESS_ROLL_H
#define PRESS_ROLL_H

#include "press/pressing.h"

/* whether the roll is as the ledger last left it; after the ledger is loaded */
void pressing_check_roll(struct pressing *p);
/* opens the roll for what will be put in place; where it is not in step, it is written anew first,
 * with all names of before that are known */
bool pressing_begin_roll(struct pressing *p, struct failure *f);
/* outputs that are about to be put in place; may be called by several threads */
bool pressing_note_outputs(struct pressing *p, struct slice slug, const struct slice *patterns,
                           size_t count, struct failure *f);
/* calls `each` for every output that the roll names */
bool pressing_each_named(struct pressing *p,
                         void (*each)(struct pressing *p, struct slice slug, struct slice pattern),
                         struct failure *f);
/* the roll names what the ledger's posts have in place; before the ledger is saved */
bool pressing_keep_roll(struct pressing *p, struct failure *f);

#endif
