/* The fold-out with where the figures come from: every figure that the reckoning of a post used. */
#ifndef WRITE_SOURCES_H
#define WRITE_SOURCES_H

#include "write/fragment_context.h"

void sources_write(struct text *t, const struct fragment_context *s);

#endif
