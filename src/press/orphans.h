/* Outputs of ours that nobody remembers: neither ledger nor manifest knows all, though an earlier
 * press worked here. What it listed in OUT/catalogue.json and what carries our hand besides is
 * ours; what else no post makes may be the writer's own, and is named so that the writer can
 * decide. */
#ifndef PRESS_ORPHANS_H
#define PRESS_ORPHANS_H

#include "press/manifest_file.h"
#include "press/pressing.h"

/* whether an earlier press has worked in OUT */
bool orphans_may_be(const struct pressing *p);
/* puts the outputs that are recognised */
void orphans_recognise(struct pressing *p, struct manifest_file *to);
/* one line with the files in OUT's folders that no post makes, where some may be ours */
void orphans_tell(struct pressing *p);

#endif
