/* A post's outputs put in place: what stands there already is left alone, the rest waits in the
 * worker's batch until it is given its name. */
#ifndef PRESS_PLACE_H
#define PRESS_PLACE_H

#include "press/state.h"

struct post_outputs {
    size_t number; /* of the post; p->posts[number] has room for them */
    struct slice slug;
    const struct output_text *items;
    uint32_t count;
    const struct ledger_post *before; /* as the ledger had the post, or NULL */
    bool named;                       /* the manifest has all of them */
};

/* their names are noted before the first of them is there */
bool place_post(struct press_state *p, struct press_worker *w, const struct post_outputs *outputs,
                struct failure *f);
/* one of them alone, whose name was noted before */
bool place_output(struct press_state *p, struct press_worker *w, const struct post_outputs *outputs,
                  uint32_t i, struct failure *f);
/* gives what waits in all workers its names; `flushed`: it is on the disk already */
void place_waiting(struct press_state *p, bool flushed);
/* the same for one worker, once much waits */
void place_much(struct press_state *p, struct press_worker *w);
/* whether the error will not go away with the next file */
bool place_is_full(int error);

#endif
