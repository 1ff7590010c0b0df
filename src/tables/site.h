/* The settings of a site. */
#ifndef TABLES_SITE_H
#define TABLES_SITE_H

#include "tables/limits.h"

struct site {
    struct entry entry; /* "site": all settings; one digest, since nearly all reach every page */
    const char *title, *description;
    const char *address; /* base URL with a slash at its end, or "" */
    const char *author, *author_url;
    const char *language;      /* en-GB */
    const char *fragment_path; /* URL path of a post on the site, "{slug}" stands for the slug */
    const char *images_path;   /* of the pictures' folder on the site, with a slash at its end */
    const char *tag_authority, *tag_date; /* tag URIs (RFC 4151): example.org, 2026 */
    int measures;                         /* default region of posts */
    int regions[REGIONS_MOST];            /* to render, the first is shown at first; at least one */
    size_t region_count;
    bool regions_apart; /* a fragment per region instead of one with radio buttons */
    int phase;          /* whose standing is shown and decides the findings */
    double watts[8];
    size_t watt_count;
    double fan_lower;    /* degrees C a fan oven is set lower */
    double room_celsius; /* warm kitchens: over 32 the shorter holding time */
    size_t feed_entries; /* newest posts in the feeds */
    const char *licence; /* of the posts: a URL, or "" */
};

/* takes in one layer of the settings, over those before it, key by key; `out` is empty at first.
 * Phases and regions must be loaded. */
void site_load(struct arena *a, const struct yaml_node *root, const struct measures *measures,
               const struct limits *limits, struct notices *notices, struct site *out);
/* fills what no layer said and takes the digest; call once, after the last layer */
void site_close(struct arena *a, const struct measures *measures, const struct limits *limits,
                struct site *out);

#endif
