/* What a packet's label comes to: how much of each ingredient there can be, what stays open, and
 * the food's block as a table takes it. */
#ifndef WRITE_LABEL_PAGE_H
#define WRITE_LABEL_PAGE_H

#include "tables/table_cache.h"
#include "write/json_writer.h"

/* the ingredients with their grams in 100 g; nothing where the food has no label */
void label_page_parts(struct text *t, const struct food *f);
/* the same as member `label`: an array, or null */
void label_page_json(struct json_writer *n, const struct food *f);
/* the finished block in YAML, with what is open and the most of a serve as remarks */
void label_page_block(struct text *t, const struct food *f, const struct tables *tables);

#endif
