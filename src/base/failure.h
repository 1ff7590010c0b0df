/* What stops the work: a file, memory, the disk. A fault in an author's text is a finding, not
 * this. */
#ifndef BASE_FAILURE_H
#define BASE_FAILURE_H

#include <stdbool.h>

enum exit_status {
    EXIT_CLEAN = 0,    /* nothing at or above the fail level */
    EXIT_FINDINGS = 1, /* findings at or above it */
    EXIT_USE = 2,      /* wrong use */
    EXIT_MACHINE = 3   /* file, memory, disk */
};

struct failure {
    char text[400]; /* one line, no full stop; empty when nothing failed */
};

/* writes the line; always returns false, so that `return failure_say(...)` reads well */
bool failure_say(struct failure *f, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* the same with ": " and the system's words for errno behind it; errno stays as it is */
bool failure_say_errno(struct failure *f, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

#endif
