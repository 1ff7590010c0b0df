/* A new file that has no name until it is whole, where the system knows such files. Its folder is
 * changed once, by the link that names it, where a temporary name and a rename change it three
 * times; and a press that is killed leaves nothing. */
#ifndef PRESS_NAMELESS_H
#define PRESS_NAMELESS_H

#include <stdbool.h>

enum nameless {
    NAMELESS_BY_LINK,  /* the link takes the open file itself */
    NAMELESS_BY_PROC,  /* it must be found through /proc */
    NAMELESS_NOT_KNOWN /* this system or file system has none */
};

/* opened for writing in the folder; -1 when it fails, and *how says whether it may be tried again
 */
int nameless_open(int folder, enum nameless *how);
/* gives it a name that no file has; false with errno EEXIST where one has it, and with
 * NAMELESS_NOT_KNOWN in *how where the system cannot */
bool nameless_link(int fd, int folder, const char *name, enum nameless *how);

#endif
