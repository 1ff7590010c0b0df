/* What stands held against the ledger: which posts must be made again, and why. */
#ifndef PRESS_CHECK_H
#define PRESS_CHECK_H

#include "press/state.h"

/* holds posts and outputs against the ledger: sets `why` in the plan */
bool check_posts(struct press_state *p, bool *stopped, struct failure *f);
/* asks the loaded tables for every key of the ledger, and plans the posts that read a changed one
 */
bool check_tables(struct press_state *p, struct failure *f);

/* the posts that name others of which one changed, came or went are to be made again. Looks at the
 * others only where some post is not as it was. */
bool check_members(struct press_state *p, struct failure *f);

#endif
