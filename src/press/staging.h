/* A folder of outputs in which nothing stands yet is filled aside, in OUT/.dariole, and put in its
 * place by one rename: nobody ever sees it half filled, and its files need no temporary names,
 * which would cost more than all else that is done to a file. */
#ifndef PRESS_STAGING_H
#define PRESS_STAGING_H

#include "press/pressing.h"

/* moves the vacant folders of outputs aside, each as it is; one that cannot be moved stays */
void staging_begin(struct pressing *p);
/* puts them back; false when one cannot be, which then stays aside for the next press to remove */
bool staging_put_back(struct pressing *p, struct failure *f);
/* removes what a press that was cut off left aside */
void staging_clear(const struct pressing *p);

#endif
