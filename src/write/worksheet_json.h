/* The worksheet of a post as one JSON object: schemas/worksheet.schema.json. */
#ifndef WRITE_WORKSHEET_JSON_H
#define WRITE_WORKSHEET_JSON_H

#include "compile/outcome.h"

void worksheet_json(struct text *t, const struct outcome *o);

#endif
