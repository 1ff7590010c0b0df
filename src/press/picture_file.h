/* The file of a post's picture in the content folder. */
#ifndef PRESS_PICTURE_FILE_H
#define PRESS_PICTURE_FILE_H

#include <sys/stat.h>

#include "base/failure.h"
#include "judge/picture.h"

enum { PICTURE_PATH_MOST = 4096 };

/* whether a regular file of this name lies beside `post` (a path relative to the folder; "" means
 * the folder itself); then its path and stat. A link counts as the file it leads to. */
bool picture_file_beside(int folder, const char *post, struct slice file,
                         char path[PICTURE_PATH_MOST], struct stat *s);
/* beside the post, or else in the content folder itself */
bool picture_file_find(int content, const char *post, struct slice file,
                       char path[PICTURE_PATH_MOST], struct stat *s);

struct picture_file {
    enum picture_found found;
    struct slice bytes;     /* of PICTURE_FOUND */
    uint64_t stamp, digest; /* 0: it is not there */
    bool fresh;             /* another change might not show in the stamp */
};

/* the file as picture_file_find finds it, in the arena; false, with the path and why, where the
 * machine cannot read what is there */
bool picture_file_read(struct arena *a, int content, const char *post, struct slice file,
                       struct picture_file *out, struct failure *f);

#endif
