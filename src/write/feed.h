/* JSON Feed 1.1, Atom (RFC 4287), sitemap, schema.org DataFeed: joined from records. */
#ifndef WRITE_FEED_H
#define WRITE_FEED_H

#include "write/gathering.h"

/* the two feeds take the newest posts that have a date, as many as the site's settings say; heads
 * are made in `a` */
bool feed_write_json(struct arena *a, const struct site *site, const struct gathering *g,
                     struct outlet out);
bool feed_write_atom(struct arena *a, const struct site *site, const struct gathering *g,
                     struct outlet out);
bool feed_write_sitemap(const struct gathering *g, struct outlet out);
bool feed_write_datafeed(struct arena *a, const struct site *site, const struct gathering *g,
                         struct outlet out);

#endif
