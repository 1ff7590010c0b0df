/* What stands held against the ledger: which posts must be made again, and why. */
#ifndef PRESS_CHECK_H
#define PRESS_CHECK_H

#include "press/pressing.h"

/* holds posts and outputs against the ledger: sets `why` in the plan */
bool pressing_check(struct pressing *p, bool *stopped, struct failure *f);
/* asks the loaded tables for every key of the ledger, and plans the posts that read a changed one
 */
bool pressing_ask_tables(struct pressing *p, struct failure *f);
/* gives the slugs that were lost and found while posts were turned out their right owners */
void pressing_settle_slugs(struct pressing *p, struct worker *w);

#endif
