/* OUT as a house: opened for one press at a time, its journal, what is old removed. */
#ifndef PRESS_PRESS_SESSION_H
#define PRESS_PRESS_SESSION_H

#include "press/pressing.h"

/* removes the outputs that no post has any more; foreign files are not touched */
bool pressing_remove_old(struct pressing *p, struct failure *f);
/* removes the temporary files of a press that was cut off */
void pressing_sweep(const struct pressing *p);
/* opens OUT and all that is in it, one press at a time; sweeps after one that was cut off */
bool pressing_open(struct pressing *p, struct failure *f);
/* the journal says that a press is at work; one that is left says that a press was cut off */
bool pressing_begin_journal(struct pressing *p, struct failure *f);
void pressing_close(struct pressing *p);

#endif
