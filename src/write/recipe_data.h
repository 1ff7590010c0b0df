/* schema.org Recipe as JSON-LD. */
#ifndef WRITE_RECIPE_DATA_H
#define WRITE_RECIPE_DATA_H

#include "compile/outcome.h"

/* the whole document, one JSON object with a line end; safe inside <script> ("<" is escaped) */
void recipe_data_write(struct text *t, const struct outcome *o);

#endif
