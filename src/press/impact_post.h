/* What a change of tables does to one post, in words and as JSON. */
#ifndef PRESS_IMPACT_POST_H
#define PRESS_IMPACT_POST_H

#include "press/impact_outputs.h"

/* what changes of one post, for people and for programs; false when no output does. The text is
 * empty where nothing but a page's words or a share's third decimal changes. `entries`
 * are the keys of the table entries that it read and that changed. */
bool impact_describe(struct arena *a, const struct impact_pair *pair, struct slice *text,
                     struct slice *json);

#endif
