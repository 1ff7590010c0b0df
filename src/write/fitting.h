/* What fits beside a dish at one sitting: what each post tells of itself for it, and the line on a
 * page that names others. The line is put into pages when all posts are known, and exchanged when
 * it changes, without compiling the post again. */
#ifndef WRITE_FITTING_H
#define WRITE_FITTING_H

#include "compile/outcome.h"

/* how many posts a line names at most */
enum { FITTING_MOST = 3 };

/* what a post tells of itself; empty where it fits beside nothing, as a round-up */
struct slice fitting_facts(struct arena *a, const struct outcome *o);

/* the same, read again; slices into what it was read from */
struct fitting {
    double sitting, portion;           /* parts of the limits, rounded up (reckon/beside.h) */
    struct slice foods;                /* ids with a blank behind each */
    struct slice category;             /* or empty */
    struct slice slug, address, title; /* address and title as HTML, the title with its language:
                                          ` lang="fr">Soupe` */
};
/* false where there is nothing */
bool fitting_read(struct slice facts, struct fitting *out);

/* whether a portion of each may be eaten at one sitting, by parts that add up and foods that only
 * one of them holds much of; and whether a cook would: not two soups */
bool fitting_suits(const struct fitting *one, const struct fitting *other);

/* the line that names these, at least one; preview: its links lead to pages beside it */
struct slice fitting_line(struct arena *a, const struct fitting *others, size_t count,
                          bool preview);
/* whether it is a page that a line can stand in */
bool fitting_takes(struct slice page);
/* the line that a page holds, or empty */
struct slice fitting_find(struct slice page);
/* the page with this line in the place of its own; empty: with none */
struct slice fitting_put(struct arena *a, struct slice page, struct slice line);

#endif
