/* The file of a post's picture in the content folder. */
#ifndef PRESS_PICTURE_FILE_H
#define PRESS_PICTURE_FILE_H

#include <sys/stat.h>

#include "base/failure.h"
#include "judge/picture.h"

enum { PICTURE_PATH_MOST = 4096 };
/* in place of a file's stamp */
enum { PICTURE_STAMP_MISSING, PICTURE_STAMP_OUTSIDE };

/* PICTURE_FOUND where a plain file of this name lies beside the post (a path relative to the
 * content folder), or else in the content folder itself; then its path and stat. A link counts as
 * the file it leads to; one that leads out of the content folder is PICTURE_OUTSIDE. */
enum picture_found picture_file_find(int content, const char *post, struct slice file,
                                     char path[PICTURE_PATH_MOST], struct stat *s);
/* another stamp means that something else was found, or that the file was touched */
uint64_t picture_file_stamp(enum picture_found found, const struct stat *s);
/* digest of the file's bytes; of one that is too large, of its size alone */
bool picture_file_digest(int content, const char *path, const struct stat *s, uint64_t *digest);

struct picture_file {
    enum picture_found found;
    struct slice bytes;     /* of PICTURE_FOUND */
    uint64_t stamp, digest; /* digest 0: it was not read */
    bool fresh;             /* another change might not show in the stamp */
};

/* the file as picture_file_find finds it, in the arena, and whether it is what its name says;
 * false, with the path and why, where the machine cannot read what is there */
bool picture_file_read(struct arena *a, int content, const char *post, struct slice file,
                       struct picture_file *out, struct failure *f);

#endif
