/* OUT as a house: opened for one press at a time, its journal, what is old removed. */
#ifndef PRESS_HOUSE_H
#define PRESS_HOUSE_H

#include "press/pressing.h"

/* removes the outputs that no post has any more; foreign files are not touched */
void pressing_remove_old(struct pressing *p);
/* a press that was broken off leaves that to the next, by way of the journal */
bool pressing_journal_old(struct pressing *p, struct failure *f);
bool pressing_note_slug(struct pressing *p, struct slice slug, struct failure *f);
/* opens OUT and all that is in it, one press at a time; sweeps after one that was cut off */
bool pressing_open(struct pressing *p, struct failure *f);
bool pressing_begin_journal(struct pressing *p, struct failure *f);
void pressing_close(struct pressing *p);

#endif
