/* What one post gives to the feeds, the sitemap and the DataFeed. */
#ifndef WRITE_FEED_ITEM_H
#define WRITE_FEED_ITEM_H

#include "compile/outcome.h"

/* an item of JSON Feed, an Atom entry; empty where no date is given, since nothing may stand in for
 * one */
struct slice feed_item_json(struct arena *a, const struct outcome *o);
struct slice feed_item_atom(struct arena *a, const struct outcome *o);
/* a <url>; empty while the site has no address */
struct slice feed_item_sitemap(struct arena *a, const struct outcome *o);
/* a DataFeedItem */
struct slice feed_item_datafeed(struct arena *a, const struct outcome *o);

#endif
