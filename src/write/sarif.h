/* SARIF 2.1.0. */
#ifndef WRITE_SARIF_H
#define WRITE_SARIF_H

#include "write/feed.h"

/* the findings of one post as results, comma-separated, no brackets */
struct slice sarif_results(struct arena *a, const struct findings *f);
bool sarif_write(const struct gathering *g, struct outlet out);

#endif
