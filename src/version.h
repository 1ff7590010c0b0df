/* The version of the program, and of what it writes: a new FORMAT makes every output anew. */
#ifndef VERSION_H
#define VERSION_H

#define DARIOLE_VERSION "0.1.0"
#ifndef DARIOLE_FORMAT /* a test gives another */
#define DARIOLE_FORMAT 73
#endif

#endif
