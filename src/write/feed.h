/* JSON Feed 1.1, Atom (RFC 4287), sitemap, schema.org DataFeed: joined from records. */
#ifndef WRITE_FEED_H
#define WRITE_FEED_H

#include "write/record.h"

/* where a gathered file goes as it is joined; returns false when it cannot be written */
struct outlet {
    bool (*put)(void *ctx, struct slice bytes);
    void *ctx;
};

/* gives the i-th record's piece, in the order of the file being written; for feeds newest first */
struct gathering {
    size_t count;
    struct slice (*piece)(void *ctx, size_t i, enum piece_of_record piece);
    void *ctx;
    struct slice changed; /* latest `changed` of all, for the head of a feed */
};

bool feed_write_json(const struct site *site, const struct gathering *g, struct outlet out);
bool feed_write_atom(const struct site *site, const struct gathering *g, struct outlet out);
bool feed_write_sitemap(const struct site *site, const struct gathering *g, struct outlet out);
bool feed_write_datafeed(const struct site *site, const struct gathering *g, struct outlet out);

#endif
