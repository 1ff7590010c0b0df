/* Temperatures in the order in which the cooks of a region look for them. */
#ifndef WRITE_HEAT_WORDS_H
#define WRITE_HEAT_WORDS_H

#include "read/heat.h"
#include "write/fragment_context.h"

/* the other ways of writing a heat stand right behind it: first..last of a step */
struct heat_cluster {
    const struct heat *first, *last;
};

struct heat_cluster heat_cluster_of(const struct heats *h, size_t i);

/* "200 °C (fan 180 °C, gas 6)", "400 °F (200 °C)" for the i-th region: what the author wrote keeps
 * its figures, what the region's ovens want besides is reckoned; `words` as they are where more
 * than temperatures stands in them */
struct slice heat_words(const struct fragment_context *s, const struct heat_cluster *c,
                        struct slice words, size_t i);

#endif
