/* The smallest set of cuts: of several things, which to cut and by how much, so that every need is
 * met. Loads are linear in amounts, so this is a small linear programme, solved exactly. */
#ifndef RECKON_CUTS_H
#define RECKON_CUTS_H

#include <stdbool.h>
#include <stddef.h>

enum { CUT_THINGS_MOST = 8, CUT_NEEDS_MOST = 27, CUT_SET_MOST = 4 };

struct cut_problem {
    size_t things, needs;
    double effect[CUT_THINGS_MOST][CUT_NEEDS_MOST]; /* of a whole thing, on each need; >= 0 */
    double need[CUT_NEEDS_MOST];                    /* > 0 */
    double weight[CUT_THINGS_MOST];                 /* what cutting the whole thing costs; > 0 */
};

/* part of each thing to cut (0..1): meets every need with the fewest things, and among the sets of
 * that size with the least weight. False where no CUT_SET_MOST things together meet them. */
bool cuts_fewest(const struct cut_problem *p, double cut[CUT_THINGS_MOST]);

#endif
