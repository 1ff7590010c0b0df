/* What was understood of a method: each clause with its action, what it acts on, how long and how
 * hot. */
#ifndef WRITE_WORKSHEET_STEPS_H
#define WRITE_WORKSHEET_STEPS_H

#include "compile/outcome.h"

void worksheet_steps(struct text *t, const struct outcome *o);
/* the same as one JSON object, schemas/steps.schema.json */
void worksheet_steps_json(struct text *t, const struct outcome *o);

#endif
