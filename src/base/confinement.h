/* What a process may still do: it names the folders that it needs, confines itself, and from there
 * to its end opens nothing else (Landlock) and makes no call that it has no use for
 * (base/call_filter.h). Threads that it starts afterwards are confined with it. What the kernel
 * does not have is left out, and the work goes on as it would without.
 */
#ifndef BASE_CONFINEMENT_H
#define BASE_CONFINEMENT_H

#include <stdbool.h>

enum confinement_use {
    CONFINEMENT_READ, /* files are read, folders listed */
    CONFINEMENT_WRITE /* and files made, written, renamed and removed */
};

struct confinement {
    int rules;   /* the kernel's list, an open file; -1: it keeps none */
    int version; /* of what the kernel keeps; 0: nothing */
};

/* what holds of a confinement that was entered */
struct confinement_held {
    int files;  /* version of Landlock; 0: any file may be opened */
    bool calls; /* other calls are answered as if the kernel had none such */
};

/* Nothing is confined yet. In a build for a sanitizer, which needs more than the program does, and
 * where the environment has DARIOLE_UNCONFINED, nothing will be. */
void confinement_begin(struct confinement *c);
/* a file, or a folder with all that lies beneath it; what cannot be opened is passed over */
void confinement_allow(struct confinement *c, const char *path, enum confinement_use use);
/* the same, of an open file or folder, which stays open; -1 is passed over */
void confinement_allow_open(struct confinement *c, int fd, enum confinement_use use);
/* from here on to the end of the process; before the first thread */
struct confinement_held confinement_enter(struct confinement *c);

#endif
