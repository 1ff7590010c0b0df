/* The names, addresses and dates of a post that every output shares. */
#ifndef WRITE_RECIPE_NAME_H
#define WRITE_RECIPE_NAME_H

#include "compile/outcome.h"

/* path of the post on the site: "polenta.html" */
struct slice recipe_path(struct arena *a, const struct outcome *o);
/* URL of the post on the site, or "" when the site has no address */
struct slice recipe_url(struct arena *a, const struct outcome *o);
/* an address in the post, made whole where the site has one: relative ones stand beside its page */
struct slice recipe_address(struct arena *a, const struct outcome *o, struct slice address);
/* URL of another post's page, by its slug; its path where the site has no address */
struct slice recipe_url_of(struct arena *a, const struct outcome *o, struct slice slug);
/* tag URI (RFC 4151), stable for a slug */
struct slice recipe_tag(struct arena *a, const struct outcome *o);
/* date the meaning last changed: the latest of published, updated, and `changed` of table entries;
 * empty when none is given */
struct slice recipe_changed(struct arena *a, const struct outcome *o);
/* a date as an RFC 3339 time: midnight UTC where only a day is given */
struct slice recipe_stamp(struct arena *a, struct slice date);
/* the author of the post, else of the site */
struct slice recipe_author(const struct outcome *o);
/* words for one portion, plain: "4 fingers", "1 of 6" */
struct slice recipe_portion(struct arena *a, const struct outcome *o);
/* seconds from start to end: declared, summed from what is declared, or stated in the steps; 0 when
 * nothing says */
double recipe_total_seconds(const struct outcome *o);
/* the picture's URL: absolute where it or the site's address is; empty where there is none */
struct slice recipe_image(struct arena *a, const struct outcome *o);

#endif
