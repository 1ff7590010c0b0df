/* The foods that keep a portion from standing within, and what a cook might do about each, for
 * remedy.c: nothing is tried here. */
#ifndef RECKON_REMEDY_CANDIDATES_H
#define RECKON_REMEDY_CANDIDATES_H

#include "reckon/remedies.h"

enum { CULPRITS_MOST = 10, CANDIDATES_MOST = 40 };

/* a line's food that brings of what is too much */
struct culprit {
    const struct load *load;
    bool unknown; /* too little is known of it: less of it would tell no more */
};

struct candidate {
    struct change change;
    uint64_t serves; /* bits 1 << (serve of the sheet) that it changes */
};

struct candidates {
    struct culprit culprits[CULPRITS_MOST]; /* the worst first */
    size_t culprit_count;
    uint64_t must;      /* serves that stand too high, or unknown, by themselves */
    uint64_t must_over; /* those that are over */
    struct candidate items[CANDIDATES_MOST]; /* in the order in which they are to be tried */
    size_t count;
};

void candidates_find(struct arena *a, const struct remedy_asked *asked, struct reads *reads,
                     struct candidates *out);
/* the serve of a load's food */
size_t candidates_serve(const struct remedy_asked *asked, const struct load *l);

#endif
