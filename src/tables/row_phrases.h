/* Lists of phrases of a row. A phrase may hold choices in braces: "by the {hob,stove}" is two
 * phrases, "in {the ,}jars" as well. */
#ifndef TABLES_ROW_PHRASES_H
#define TABLES_ROW_PHRASES_H

#include "tables/row.h"

/* the phrases of a list of texts, or of one text alone, NULL-terminated; says so where one is no
 * text or has a brace that is not closed */
const char **row_phrases(struct row *row, const struct yaml_node *node, const char *part);

#endif
