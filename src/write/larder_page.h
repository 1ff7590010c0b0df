/* A food of the larder with all that is known of it, as text for people and JSON for programs. */
#ifndef WRITE_LARDER_PAGE_H
#define WRITE_LARDER_PAGE_H

#include "tables/table_cache.h"
#include "write/json_writer.h"

void larder_page_text(struct text *t, const struct food *f, const struct tables *tables);
/* one object on one line */
void larder_page_json(struct text *t, const struct food *f, const struct tables *tables);

#endif
