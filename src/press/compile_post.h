/* Turning posts out: one post read, compiled, its outputs and its record written. */
#ifndef PRESS_COMPILE_POST_H
#define PRESS_COMPILE_POST_H

#include "press/pressing.h"

/* notes that the machine failed; the first is the one told */
void pressing_failed(struct pressing *p, const struct failure *f, bool halt);
/* whether the post has outputs in place */
bool pressing_published(const struct ledger_post *post);
/* turns one post out: reads, compiles, writes its outputs and its record. Whatever happens,
 * p->posts[i] says how it now stands. */
void pressing_compile_post(struct pressing *p, struct worker *w, size_t i);
/* the post stays what it was, to be made again the next time */
void pressing_keep_failed(struct pressing *p, size_t i);
/* after pressing_compile_post ran out of memory */
void pressing_exhausted(struct pressing *p, size_t i);
/* told by a batch which outputs are in place */
void pressing_placed(void *pressing, uint64_t tag, const struct stat *s, const struct failure *f);
/* gives the outputs that wait in all hands their names */
void pressing_place_outputs(struct pressing *p, bool flushed);

#endif
