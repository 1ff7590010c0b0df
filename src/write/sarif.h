/* SARIF 2.1.0. */
#ifndef WRITE_SARIF_H
#define WRITE_SARIF_H

#include "judge/rules.h"
#include "write/gathering.h"

/* the findings of one post as results, comma-separated, no brackets */
struct slice sarif_results(struct arena *a, const struct findings *f);
/* the whole log; its head with all the rules is made in `a` */
bool sarif_write(struct arena *a, const struct gathering *g, struct outlet out);

#endif
