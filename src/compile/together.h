/* Portions of several posts eaten at one sitting: how they stand together, and what to make
 * smaller.
 */
#ifndef COMPILE_TOGETHER_H
#define COMPILE_TOGETHER_H

#include "compile/post_finder.h"
#include "reckon/sitting.h"

struct together_part {
    const struct outcome *outcome; /* a recipe that says how many portions it makes */
    double portions;               /* eaten, over 0 */
};

struct together {
    const struct together_part *parts;
    size_t count;
    struct sitting sitting;
    struct sheet sheet;
    struct phase_stand stand; /* in the site's phase */
    size_t smaller;    /* the part to make smaller; SIZE_MAX: none is needed, or no one part is
                          enough */
    double smaller_to; /* to so many portions of it; 0: at another sitting */
};

/* parts live as long as the arena; reads notes what is read of the tables */
void together_reckon(struct arena *a, const struct tables *t, const struct together_part *parts,
                     size_t count, struct reads *reads, struct together *out);

/* the post whose line a load comes from */
const struct outcome *together_of(const struct together *g, const struct load *l);

/* whether a post can be eaten with others: a recipe whose portions are known; else why not */
bool together_can(const struct outcome *o, struct slice *why);

/* holds the menu of a post, `eaten-with:`, like a claim */
void together_judge(struct arena *a, const struct tables *t, const struct post_finder *finder,
                    struct notices *notices, struct outcome *out);

#endif
