/* A whole post as the plain HTML that readers of feeds show: verdict, list, method, notes, prose.
 */
#ifndef WRITE_FEED_CONTENT_H
#define WRITE_FEED_CONTENT_H

#include "compile/outcome.h"

/* in the words of the post's own region; every address whole */
struct slice feed_content(struct arena *a, const struct outcome *o);

#endif
