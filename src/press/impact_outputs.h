/* Whether a change of tables reaches anything that a press would write of a post. */
#ifndef PRESS_IMPACT_OUTPUTS_H
#define PRESS_IMPACT_OUTPUTS_H

#include "compile/outcome.h"

struct impact_pair {
    const struct outcome *before, *after;
    const struct slice *entries;
    size_t entry_count;
};

struct outputs_changed {
    bool page; /* the fragment, and so the preview */
    bool data; /* the structured data */
    bool any;  /* these, or what the post gives to the gathered files */
};

/* both outcomes are written and compared byte for byte; what would not be published counts by its
 * structured data and findings */
struct outputs_changed impact_outputs(struct arena *a, const struct impact_pair *pair);

#endif
