/* Waits until something is saved in a content folder (inotify). */
#ifndef PRESS_WATCH_H
#define PRESS_WATCH_H

#include "base/failure.h"

struct watch;

/* begins to watch the folder and all folders in it, but hidden ones and `out`. What is saved from
 * now on is not missed, though watch_wait comes later. NULL when the machine cannot. */
struct watch *watch_open(const char *content, const char *out, struct failure *f);

/* waits for a change, then until nothing more has changed for a moment; false when it cannot */
bool watch_wait(struct watch *w, struct failure *f);

void watch_close(struct watch *w);

#endif
