/* The content's tables as a revision in git has them. */
#ifndef PRESS_REVISION_H
#define PRESS_REVISION_H

#include "base/failure.h"
#include "base/text.h"

enum answer_of_tables { TABLES_ANSWERED, TABLES_MISASKED, TABLES_FAILED };

struct revision {
    struct arena *arena;
    struct failure *failure;
    const char *content;   /* the content folder */
    const char *name;      /* as git takes it */
    const char *temporary; /* a folder to take them out into */
};

/* the folder that holds them; NULL where the revision has none. TABLES_MISASKED: no such revision.
 */
enum answer_of_tables revision_tables(struct revision *r, const char **folder);

#endif
