/* A post's file. */
#ifndef PRESS_POST_FILE_H
#define PRESS_POST_FILE_H

#include <sys/stat.h>

#include "base/failure.h"
#include "base/text.h"

struct post_file {
    struct stat stat;
    struct slice bytes;
    bool gone; /* there is no such file any more, or it is no plain file */
};

/* stat of a post in the content folder; a link counts as the file it leads to, where that lies in
 * the content folder too (else EXDEV) */
bool post_file_stat(int content, const char *path, struct stat *s);
/* Reads the post into the arena. One that is too large is read so far that post_read sees it.
 * `shown` is the content folder's name in failures. */
bool post_file_read(struct arena *a, int content, const char *shown, const char *path,
                    struct post_file *out, struct failure *f);

/* the path of a post named on a command line: as it is, or within the content folder where there is
 * a file only there */
const char *post_file_named(struct arena *a, const char *content, const char *named);
/* such a path, relative to the content folder; NULL where the post lies elsewhere */
const char *post_file_within(struct arena *a, const char *content, const char *path);

#endif
