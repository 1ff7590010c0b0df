/* Which program this is: what is kept for this very program alone is kept under its id. */
#ifndef BASE_PROGRAM_H
#define BASE_PROGRAM_H

#include "base/text.h"

/* the id that the linker made of all the program's bytes and left in it; empty when it left none */
struct slice program_id(void);

#endif
