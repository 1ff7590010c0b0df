/* The press: compiles a content folder into OUT, making again only what changed. */
#ifndef PRESS_PRESS_H
#define PRESS_PRESS_H

#include "press/options.h"

/* exit status; the machine's failures are told in one line. An interrupt is left pending, for the
 * caller to let go (workers_release). */
int press_run(const struct press_options *o, struct press_result *r);

#endif
