/* What a press is asked to do, and what came of it. */
#ifndef PRESS_OPTIONS_H
#define PRESS_OPTIONS_H

#include "judge/finding.h"

struct press_options {
    const char *content, *out;
    unsigned threads;
    int heading_level;  /* of a fragment's title */
    enum level fail_at; /* LEVEL_NONE: never */
    bool progress;      /* a line on standard error with count and rate */
    bool why;           /* tell for each post made again what made it so */
    bool changed_alone; /* findings of posts that are made in this press alone */
    bool quiet;         /* neither findings nor the last line */
    bool anew;          /* make everything again */
    bool take_over;     /* write over files in OUT that are not ours */
    bool confined;      /* the process may do nothing else from here to its end */
};

struct press_result {
    size_t posts, published, made, stale, removed;
    size_t beside; /* not made again, but their pages name other posts beside them */
    uint32_t counts[LEVEL_ERROR + 1]; /* findings not answered, by level; [0]: answered */
    bool stopped;                     /* an interrupt arrived */
    bool refused;                     /* OUT holds files that are not ours; nothing was written */
    size_t failures;
};

#endif
