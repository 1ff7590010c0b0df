/* Impact: every post under the tables as they are and as they would be, and what becomes of it. */
#ifndef PRESS_IMPACT_H
#define PRESS_IMPACT_H

#include "write/impact_page.h"

struct impact_options {
    const char *content;
    const char *asked; /* what the question was, for the report */
    unsigned threads;
    bool progress;
};

struct impact_change { /* a post of which anything changes */
    const char *path, *slug;
    bool published; /* as things stand, or as they would */
    enum standing before, after;
    double share_before, share_after; /* of the tightest group */
    struct slice text, json;          /* told to people (impact_describe), to programs */
};

struct impact {
    char shown[256];             /* the content folder's name, as it stands before paths */
    struct impact_change *items; /* worst first */
    size_t count, room;
    size_t posts, unchanged;
    struct impact_row *rows; /* every post that can be read, by path */
    size_t row_count;
    size_t over; /* published posts that would come to stand `over` */
    struct failure first_failure;
    size_t failures;
    bool stopped;
};

/* compiles and compares; the changes live in the arena. False when the machine fails. */
bool impact_find(struct arena *a, const struct impact_options *o, const struct tables *now,
                 const struct tables *then, struct impact *out, struct failure *f);

/* all of it as JSON (schemas/impact.schema.json) */
void impact_write_json(struct text *t, const struct impact *i, const struct impact_options *o);

#endif
