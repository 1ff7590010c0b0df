/* Workers: threads that take numbered pieces of work in order, each with an arena of its own. The
 * calling thread is one of them. */
#ifndef PRESS_WORKERS_H
#define PRESS_WORKERS_H

#include "base/arena.h"
#include "base/failure.h"

struct worker {
    unsigned number;     /* from 0 */
    struct arena *arena; /* lent to its thread; forgotten after each piece of work */
};

struct work {
    size_t count;
    size_t at_once; /* pieces taken in one go: more for small ones */
    void (*each)(void *ctx, struct worker *w, size_t i);
    /* piece i ran out of memory and was left where it stood */
    void (*exhausted)(void *ctx, size_t i);
    void *ctx;
    const char *progress; /* "pressing": a line on the terminal with count and rate; NULL: none */
};

/* all cores of the machine */
unsigned workers_all(void);

/* does all pieces on `threads` workers, or as many as the machine gives. False after a failure to
 * begin at all, or when an interrupt arrived (see workers_hold): then *stopped */
bool workers_run(const struct work *work, unsigned threads, bool *stopped, struct failure *f);

/* holds back SIGINT, SIGTERM and SIGHUP, so that what is begun is finished; workers_run looks for
 * them. SIGXFSZ is ignored: a file-size limit is a failed write. */
void workers_hold(void);
/* whether one of them waits; then workers_release lets it end the process in the usual way */
bool workers_interrupted(void);
void workers_release(void);

#endif
