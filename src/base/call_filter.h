/* The calls to the kernel that a confined process may make (seccomp): it reads and writes files,
 * takes memory, starts threads and tells the time. It starts no program, opens no socket, maps
 * nothing that can be run. Any other call is answered as by a kernel that has none such. */
#ifndef BASE_CALL_FILTER_H
#define BASE_CALL_FILTER_H

#include <stdbool.h>

/* from here on to the end of the process; false: the kernel has no such filter */
bool call_filter_enter(void);

#endif
