/* Makes the record of one post. */
#ifndef WRITE_RECORD_MAKE_H
#define WRITE_RECORD_MAKE_H

#include "write/record.h"

void record_make(struct arena *a, const struct outcome *o, struct record *out);

#endif
