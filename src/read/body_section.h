/* Which headings open which section of a body: the method, a part of it, notes. */
#ifndef READ_BODY_SECTION_H
#define READ_BODY_SECTION_H

#include <cmark.h>

#include "base/text.h"
#include "read/word_lists.h"

enum heading_kind {
    HEADING_OTHER,
    HEADING_METHOD,
    HEADING_PART, /* "To serve", "For the icing": of the method where steps stand under it */
    HEADING_NOTES
};

/* what a heading's words open; *rest is what stands behind them ("Method: the relish") */
enum heading_kind body_heading_kind(const struct word_lists *lists, struct slice name,
                                    struct slice *rest);
/* a heading, or a paragraph of a few bold words alone, which many write for one */
bool body_is_heading(cmark_node *node);
/* 1 to 6; of bold words a level below every heading */
int body_heading_level(cmark_node *heading);

#endif
