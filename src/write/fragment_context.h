/* What a fragment is written for: the outcome, the regions it speaks to, the level of its headings;
 * and the pieces that differ by region. */
#ifndef WRITE_FRAGMENT_CONTEXT_H
#define WRITE_FRAGMENT_CONTEXT_H

#include "compile/outcome.h"
#include "write/source_line.h"

struct fragment_context {
    const struct outcome *o;
    const struct tables *tables;
    const struct phase_stand *stand; /* in the site's phase */
    struct arena *arena;
    int heading_level; /* of the title */
    /* ` lang="fr"` for the author's words where they are not English, as ours are; else empty */
    struct slice authors_language;
    int regions[REGIONS_MOST];
    size_t region_count; /* at least one; the first is shown at first */
};

/* region: one alone, or -1 for all of the site's */
struct fragment_context fragment_make(struct arena *a, const struct outcome *o, int heading_level,
                                      int region);

const struct region *fragment_region(const struct fragment_context *s, size_t i);

/* one HTML piece a region: those that read alike are written once, and where all do, bare. Else
 * each stands in `element` (span or div) with the classes of its regions; all but the first
 * region's are hidden until CSS shows them. */
void fragment_vary(struct text *t, const struct fragment_context *s, const char *element,
                   const struct slice *pieces);

/* a heading `below` levels under the title; level 6 at most */
void fragment_heading(struct text *t, const struct fragment_context *s, int below,
                      struct slice words);

/* name to show for an ingredient in sentences: that of its first food */
struct slice fragment_ingredient(const struct fragment_context *s, size_t ingredient, int region);

/* "25 to 30 min", "55 min to 1 h 10 min", "10 min" */
void fragment_range(struct text *t, double low, double high);

/* "14 March 2026" or "March 14, 2026" */
void fragment_date(struct text *t, struct slice iso, bool month_first);

/* opens what folds: <details> behind its name; closed with "</details>\n" */
void fragment_fold(struct text *t, const char *class_name, const char *name);

#endif
