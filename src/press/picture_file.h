/* The file of a post's picture in the content folder. */
#ifndef PRESS_PICTURE_FILE_H
#define PRESS_PICTURE_FILE_H

#include <sys/stat.h>

#include "base/text.h"

enum { PICTURE_PATH_MOST = 4096 };

/* whether a regular file of this name lies beside `post` (a path relative to the folder; "" means
 * the folder itself); then its path and stat. A link counts as the file it leads to. */
bool picture_file_beside(int folder, const char *post, struct slice file,
                         char path[PICTURE_PATH_MOST], struct stat *s);
/* beside the post, or else in the content folder itself */
bool picture_file_find(int content, const char *post, struct slice file,
                       char path[PICTURE_PATH_MOST], struct stat *s);

#endif
