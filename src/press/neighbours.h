/* The one line on each page that names what fits beside it at a sitting. Each post is held against
 * the posts published nearest to it in time, so that the work grows with the number of posts and a
 * new post touches few pages. Only the line is exchanged: no post is compiled for it. */
#ifndef PRESS_NEIGHBOURS_H
#define PRESS_NEIGHBOURS_H

#include "press/state.h"

/* puts the lines that the pages of before hold into those that are about to take their place; the
 * digest of what they name, 0 where they hold none or are not as the ledger says */
uint64_t neighbours_carry(struct press_state *p, struct arena *a, const struct ledger_post *before,
                          struct slice slug, struct output_text *outputs, uint32_t count);
/* after all posts are made and in place: chooses anew, and exchanges the lines that changed; *count
 * posts that were not made otherwise */
bool neighbours_remake(struct press_state *p, size_t *count, struct failure *f);

#endif
