/* A question about tables: what if these held? From another folder, from a revision in git, or from
 * single figures tried on the command line. Nothing of the blog is changed. */
#ifndef PRESS_WHAT_IF_H
#define PRESS_WHAT_IF_H

#include "press/revision.h"
#include "tables/table_cache.h"

enum { TRIES_MOST = 32 };

struct what_if {
    const char *content; /* the content folder */
    const char *against; /* a folder, "git:REV", or NULL */
    const char *tries[TRIES_MOST];
    size_t try_count;
    char folder[64]; /* a temporary folder, once there is one; else "" */
};

/* the tables as they would be. A table that the folder `against` does not have is the content's
 * own; a revision is whole, and where it has no tables the default ones hold. TABLES_MISASKED: no
 * such folder, revision, food or group; f tells which. */
enum answer_of_tables what_if_tables(struct what_if *q, struct arena *a,
                                     const struct table_layers *now, struct tables *out,
                                     struct failure *f);

/* removes the temporary folder */
void what_if_close(struct what_if *q);

#endif
