/* schema.org Recipe as JSON-LD. */
#ifndef WRITE_RECIPE_DATA_H
#define WRITE_RECIPE_DATA_H

#include <jansson.h>

#include "judge/outcome.h"

/* the whole document, one JSON object with a line end; safe inside <script> ("<" is escaped) */
void recipe_data_write(struct text *t, const struct outcome *o);
/* what rich results recommend and the post lacks: notices */
void recipe_data_check(const struct post *post, struct notices *notices);
/* URL of the post on the site, or "" when the site has no address */
struct slice recipe_url(struct arena *a, const struct outcome *o);
/* tag URI (RFC 4151), stable for a slug */
struct slice recipe_tag(struct arena *a, const struct outcome *o);
/* date the meaning last changed: the latest of published, updated, and `changed` of table entries
 */
struct slice recipe_changed(struct arena *a, const struct outcome *o);

#endif
