/* Somebody's own files in an OUT in which no press has been: they are not written over unasked. */
#ifndef PRESS_FOREIGN_H
#define PRESS_FOREIGN_H

#include "press/state.h"

/* *refused: a first press would write over files that are not ours, which are told in one line; not
 * where an earlier press is known, or where the writer said --take-over. False when the machine
 * fails. The session's layers are known. */
bool foreign_refuse(struct press_state *p, bool *refused, struct failure *f);

#endif
