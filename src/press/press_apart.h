/* A press in a process of its own, so that what it confines itself to ends with it, and the one
 * that watches may press again into folders that came later. */
#ifndef PRESS_PRESS_APART_H
#define PRESS_PRESS_APART_H

#include "press/options.h"

/* The exit status, EXIT_USE where OUT was refused. Interrupts that come while it is at work reach
 * it, and wait as workers_hold says. */
int press_apart(const struct press_options *o);

#endif
