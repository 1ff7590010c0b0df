/* A post's file. */
#ifndef PRESS_POST_FILE_H
#define PRESS_POST_FILE_H

#include "press/pressing.h"

/* reads the post into the hand's own bytes; *gone true where there is no such file any more. A file
 * that is too large is read so far that post_read sees it. */
bool post_file_read(int content, const char *shown, const char *path, struct press_worker *h,
                    struct stat *s, struct slice *bytes, bool *gone, struct failure *f);

/* the path of a post named on a command line: as it is, or within the content folder where there is
 * a file only there */
const char *post_file_named(struct arena *a, const char *content, const char *named);

#endif
