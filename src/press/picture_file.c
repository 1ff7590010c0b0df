#include "press/picture_file.h"

#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <unistd.h>

#include "press/atomic_file.h"

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

/* all bytes of an open file, or so many that it is seen to be too large */
static bool
read_all(struct arena *a, int fd, struct stat *s, struct slice *out)
{
    if (fstat(fd, s) != 0)
        return false;
    const size_t most = (size_t)PICTURE_BYTES_MOST + 1;
    size_t length = 0, room = s->st_size < (off_t)most ? (size_t)s->st_size : most;
    char *bytes = arena_take(a, room + 1);
    while (length < room) {
        ssize_t n = read(fd, bytes + length, room - length);
        if (n < 0 && errno == EINTR)
            continue;
        if (n < 0)
            return false;
        if (n == 0)
            break;
        length += (size_t)n;
    }
    *out = (struct slice){bytes, length};
    return true;
}

bool
picture_file_read(struct arena *a, int content, const char *post, struct slice file,
                  struct picture_file *out, struct failure *f)
{
    char path[PICTURE_PATH_MOST];
    struct stat s;
    *out = (struct picture_file){.found = PICTURE_MISSING};
    if (!picture_file_find(content, post, file, path, &s))
        return true;
    int fd = openat(content, path, O_RDONLY | O_CLOEXEC | O_NONBLOCK);
    if (fd < 0)
        return errno == ENOENT || errno == ENOTDIR || errno == ELOOP ||
               failure_say_errno(f, "%s", path);
    bool good = read_all(a, fd, &s, &out->bytes) || failure_say_errno(f, "%s", path);
    close(fd);
    if (!good)
        return false;
    out->stamp = atomic_file_stamp(&s);
    out->fresh = atomic_file_fresh(&s);
    out->digest = slice_digest(out->bytes, 0);
    out->found = PICTURE_FOUND;
    if (out->bytes.length <= PICTURE_BYTES_MOST)
        return true;
    out->found = PICTURE_TOO_LARGE;
    return atomic_file_digest(content, path, true, &out->digest) ||
           failure_say_errno(f, "%s", path);
}
