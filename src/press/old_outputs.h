/* Outputs that no post makes any more are removed; files of others are not touched. */
#ifndef PRESS_OLD_OUTPUTS_H
#define PRESS_OLD_OUTPUTS_H

#include "press/state.h"

/* removes them, as ledger and manifest of before name them */
bool old_outputs_remove(struct press_state *p, struct failure *f);

#endif
