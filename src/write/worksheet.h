/* The whole arithmetic of one post as tables to read and print: every step with its figures, every
 * figure with its source and basis. */
#ifndef WRITE_WORKSHEET_H
#define WRITE_WORKSHEET_H

#include "compile/outcome.h"

void worksheet_text(struct text *t, const struct outcome *o);

#endif
