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

struct gathered_file {
    struct slice head;
    enum piece_of_record piece;
    size_t most;         /* pieces; empty ones are left out and do not count */
    const char *between; /* two pieces */
    const char *tail;
};

/* a file of all pieces of a kind */
bool gathering_write(const struct gathering *g, struct outlet out,
                     const struct gathered_file *file);

#endif
