/* The press: compiles a content folder into OUT, making again only what changed. */
#ifndef PRESS_PRESS_H
#define PRESS_PRESS_H

#include "judge/finding.h"
#include "base/failure.h"

struct press_options {
    const char *content, *out;
    unsigned threads;
    int heading_level;  /* of a fragment's title */
    enum level fail_at; /* LEVEL_NONE: never */
    bool progress;      /* a line on standard error with count and rate */
    bool why;           /* tell for each post made again what made it so */
    bool quiet;         /* neither findings nor the last line */
    bool anew;          /* make everything again */
    bool pieces_lost;   /* ... and trust nothing that the ledger keeps */
};

struct press_result {
    size_t posts, published, turned, stale, removed;
    uint32_t counts[LEVEL_ERROR + 1]; /* findings not answered, by level; [0]: answered */
    bool stopped;                     /* an interrupt arrived */
    size_t failures;
};

/* exit status; the machine's failures are told in one line. An interrupt is left pending, for the
 * caller to let go (workers_release). */
int press_run(const struct press_options *o, struct press_result *r);

#endif
