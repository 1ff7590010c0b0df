/* Files in OUT's folders that no post makes, where some may be ours: neither ledger nor manifest
 * knew all of them. They may be the writer's own, and are named so that the writer can decide. */
#ifndef PRESS_ORPHANS_H
#define PRESS_ORPHANS_H

#include "press/state.h"

/* one line with all of them, after a press that was whole; nothing where all is known */
void orphans_tell(const struct press_state *p);

#endif
