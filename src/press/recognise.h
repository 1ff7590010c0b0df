/* Outputs that carry our hand, where neither ledger nor manifest knows them: OUT/.dariole was lost
 * or taken away, and what stands in OUT may be ours or somebody else's. */
#ifndef PRESS_RECOGNISE_H
#define PRESS_RECOGNISE_H

#include "press/manifest_file.h"
#include "press/session.h"

/* whether an earlier press has worked in OUT: the findings that it left say so */
bool recognise_earlier(const struct session *s);
/* whether a post's output that stands there is ours by its bytes; of a picture, by its page's */
bool recognise_output(const struct session *s, struct slice slug, struct slice pattern);
/* puts the outputs of the recipes that the catalogue of before lists, those that are recognised */
void recognise_outputs(const struct session *s, struct manifest_file *to);

#endif
