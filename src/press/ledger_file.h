/* The ledger as a file: read and checked whole, written whole. */
#ifndef PRESS_LEDGER_FILE_H
#define PRESS_LEDGER_FILE_H

#include "press/ledger.h"

/* loads name in folder. Missing, damaged or of another layout: an empty one and *found false.
 * False only when the machine fails. */
bool ledger_load(struct ledger *l, int folder, const char *name, bool *found, struct failure *f);
/* writes it as a whole: temporary file, flush, rename. What no post uses any more is left out once
 * it is more than half. */
bool ledger_save(struct ledger *l, int folder, const char *name, struct failure *f);

#endif
