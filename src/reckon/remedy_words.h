/* The sentences of remedies: plain, exact, for writer and reader. */
#ifndef RECKON_REMEDY_WORDS_H
#define RECKON_REMEDY_WORDS_H

#include "reckon/remedy.h"

/* "Serve 3 fingers instead of 4." */
struct slice remedy_portion_words(struct arena *a, const struct dish *d, const struct tables *t,
                                  struct reads *reads, double amount, double was);
/* "Divide the dish into 8 portions instead of 6." */
struct slice remedy_portions_words(struct arena *a, double portions, double were);
/* "Leave out the honey.", "Use maple syrup, not honey." for pairs of ingredient and pick */
struct slice remedy_settle_words(struct arena *a, const struct dish *d, const size_t *pairs,
                                 size_t count);
/* "Use 2 tsp (about 14 g) of honey instead of 2 tbsp, and leave out the dates." */
struct slice remedy_cuts_words(struct arena *a, const struct dish *d, const struct tables *t,
                               struct reads *reads, const struct cut *cuts, size_t count);
/* a remedy's sentence for the cooks of a region: their measures and names of foods, rounded down; a
 * drastic one is said to be one */
struct slice remedy_words(struct arena *a, const struct dish *d, const struct tables *t,
                          struct reads *reads, int region, const struct remedy *r);
/* the sentence with a remark that the portion then still is close to a limit */
struct slice remedy_close_words(struct arena *a, struct slice sentence);

#endif
