/* The whole arithmetic of one post: every step with its figures, every figure with its source and
 * basis. As a table to read and print, and as JSON (schemas/worksheet.schema.json). */
#ifndef WRITE_WORKSHEET_H
#define WRITE_WORKSHEET_H

#include "judge/outcome.h"

void worksheet_text(struct text *t, const struct outcome *o);
void worksheet_json(struct text *t, const struct outcome *o);

#endif
