/* The <article> of a round-up: what it gathers, each with its verdict and time, and where its
 * dishes stand in the same file, each dish as an article of its own. Also its structured data. */
#ifndef WRITE_ROUND_UP_H
#define WRITE_ROUND_UP_H

#include "write/fragment.h"

void round_up_write(struct text *t, const struct outcome *o, const struct fragment_manner *manner);
/* schema.org ItemList in JSON-LD: addresses of the posts that are gathered, or the Recipes of the
 * dishes themselves */
void round_up_data_write(struct text *t, const struct outcome *o);

#endif
