#include "press/picture_file.h"

#include <fcntl.h>
#include <string.h>

bool
picture_file_beside(int folder, const char *post, struct slice file, char path[PICTURE_PATH_MOST],
                    struct stat *s)
{
    const char *slash = strrchr(post, '/');
    size_t length = slash != NULL ? (size_t)(slash - post) + 1 : 0;
    if (length + file.length >= PICTURE_PATH_MOST)
        return false;
    memcpy(path, post, length);
    memcpy(path + length, file.at, file.length);
    path[length + file.length] = '\0';
    return fstatat(folder, path, s, 0) == 0 && S_ISREG(s->st_mode);
}

bool
picture_file_find(int content, const char *post, struct slice file, char path[PICTURE_PATH_MOST],
                  struct stat *s)
{
    return picture_file_beside(content, post, file, path, s) ||
           (strchr(post, '/') != NULL && picture_file_beside(content, "", file, path, s));
}
