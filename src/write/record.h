/* What one post gives to the outputs that gather all posts. Made once per post, kept in the ledger;
 * the gathered files are joined from records, without reading a post again. */
#ifndef WRITE_RECORD_H
#define WRITE_RECORD_H

#include "compile/outcome.h"

enum piece_of_record {
    RECORD_CATALOGUE, /* an object of catalogue.json, one line */
    RECORD_DATAFEED,  /* a DataFeedItem of recipes.json */
    RECORD_JSON_FEED, /* an item of feed.json */
    RECORD_ATOM,      /* an <entry> of feed.xml */
    RECORD_SITEMAP,   /* a <url> of sitemap.xml */
    RECORD_INDEX,     /* a row of the preview's index */
    RECORD_SARIF,     /* results of findings.sarif, comma-separated; may be empty */
    RECORD_FINDINGS,  /* findings as text lines, as printed */
    RECORD_FITTING,   /* what is asked of it when others look for what fits beside them */
    RECORD_PIECES
};

struct record {
    struct slice slug;
    struct slice published,
        changed;        /* dates, for the order and heads of feeds; empty when not given */
    bool publishable;   /* else only SARIF and FINDINGS are filled */
    uint32_t counts[4]; /* findings not answered, by level; [0]: answered */
    struct slice pieces[RECORD_PIECES];
};

#endif
