/* Portions eaten at one sitting, for people and for programs. */
#ifndef WRITE_SITTING_PAGE_H
#define WRITE_SITTING_PAGE_H

#include "compile/together.h"
#include "write/json_writer.h"

/* name: of the meal, or empty */
void sitting_page_write(struct text *t, const struct together *g, struct slice name);
/* one object (schemas/sitting.schema.json) */
void sitting_page_json(struct json_writer *n, const struct together *g, struct slice name);

#endif
