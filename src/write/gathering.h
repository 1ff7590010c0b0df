/* Files that gather all posts, joined from the pieces of records. */
#ifndef WRITE_GATHERING_H
#define WRITE_GATHERING_H

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

/* all pieces of a kind with `between` between them, empty ones left out; at most `most` */
bool gathering_join(const struct gathering *g, enum piece_of_record piece, size_t most,
                    const char *between, struct outlet out);

/* the same behind a head and before a tail */
bool gathering_write(const struct gathering *g, struct outlet out, struct slice head,
                     enum piece_of_record piece, size_t most, const char *between,
                     const char *tail);

#endif
