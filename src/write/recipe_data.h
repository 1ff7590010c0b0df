/* schema.org Recipe as JSON-LD. */
#ifndef WRITE_RECIPE_DATA_H
#define WRITE_RECIPE_DATA_H

#include "compile/outcome.h"
#include "write/json_writer.h"

/* the whole document, one JSON object with a line end; safe inside <script> ("<" is escaped) */
void recipe_data_write(struct text *t, const struct outcome *o);
/* the post's film as a VideoObject with its Clips; nothing where there is none */
void recipe_data_video(struct json_writer *n, const struct outcome *o, const char *key);

#endif
