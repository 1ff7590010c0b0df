/* Which targets of links may be published. */
#ifndef READ_LINK_H
#define READ_LINK_H

#include "base/text.h"

/* whether a link's target is http, https, mailto or relative, and free of control characters */
bool link_is_safe(struct slice url);

/* whether it is relative to the page: no scheme, no host, and not from the site's root */
bool link_is_beside(struct slice url);
/* the name of the post's file that a relative link leads to, without its ending: "soup" of
 * "posts/soup.md#notes"; *rest is what stands behind ".md". Empty: it leads elsewhere */
struct slice link_post(struct slice url, struct slice *rest);

#endif
