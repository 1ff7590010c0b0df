#include "press/picture_file.h"

#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <unistd.h>

#include "judge/picture_bytes.h"
#include "press/atomic_file.h"
#include "press/beneath.h"

static enum picture_found
look(int content, const char *path, struct stat *s)
{
    if (beneath_stat(content, path, s))
        return S_ISREG(s->st_mode) ? PICTURE_FOUND : PICTURE_MISSING;
    return errno == EXDEV ? PICTURE_OUTSIDE : PICTURE_MISSING;
}

enum picture_found
picture_file_find(int content, const char *post, struct slice file, char path[PICTURE_PATH_MOST],
                  struct stat *s)
{
    const char *slash = strrchr(post, '/');
    const size_t beside = slash != NULL ? (size_t)(slash - post) + 1 : 0;
    if (beside + file.length >= PICTURE_PATH_MOST)
        return PICTURE_MISSING;
    memcpy(path, post, beside);
    memcpy(path + beside, file.at, file.length);
    path[beside + file.length] = '\0';
    enum picture_found found = look(content, path, s);
    if (found != PICTURE_MISSING || beside == 0)
        return found;
    memmove(path, path + beside, file.length + 1);
    return look(content, path, s);
}

uint64_t
picture_file_stamp(enum picture_found found, const struct stat *s)
{
    if (found != PICTURE_FOUND)
        return found == PICTURE_OUTSIDE ? PICTURE_STAMP_OUTSIDE : PICTURE_STAMP_MISSING;
    const uint64_t stamp = atomic_file_stamp(s);
    return stamp > PICTURE_STAMP_OUTSIDE ? stamp : PICTURE_STAMP_OUTSIDE + 1;
}

bool
picture_file_digest(int content, const char *path, const struct stat *s, uint64_t *digest)
{
    const uint64_t size = (uint64_t)s->st_size;
    if (size <= PICTURE_BYTES_MOST)
        return atomic_file_digest(content, path, PICTURE_BYTES_MOST, digest);
    *digest = slice_digest((struct slice){(const char *)&size, sizeof size}, 0);
    return true;
}

/* all bytes of the file, where they are not too many */
static bool
read_all(struct arena *a, int content, const char *path, struct stat *s, struct slice *out)
{
    const size_t room = (size_t)s->st_size;
    char *bytes = arena_take(a, room + 1); /* while nothing is open */
    const int fd = beneath_open(content, path, O_RDONLY | O_NONBLOCK);
    if (fd < 0)
        return false;
    const bool good = fstat(fd, s) == 0 && atomic_file_get(fd, bytes, room, &out->length);
    const int error = errno;
    close(fd);
    errno = error;
    out->at = bytes;
    return good;
}

bool
picture_file_read(struct arena *a, int content, const char *post, struct slice file,
                  struct picture_file *out, struct failure *f)
{
    char path[PICTURE_PATH_MOST];
    struct stat s;
    *out = (struct picture_file){.found = picture_file_find(content, post, file, path, &s)};
    out->stamp = picture_file_stamp(out->found, &s);
    if (out->found != PICTURE_FOUND)
        return true;
    if (s.st_size > PICTURE_BYTES_MOST) {
        out->found = PICTURE_TOO_LARGE;
        return picture_file_digest(content, path, &s, &out->digest);
    }
    if (!read_all(a, content, path, &s, &out->bytes))
        return failure_say_errno(f, "%s", path);
    out->stamp = picture_file_stamp(PICTURE_FOUND, &s);
    out->fresh = atomic_file_fresh(&s);
    out->digest = slice_digest(out->bytes, 0);
    out->found = picture_bytes_judge(file, out->bytes);
    return true;
}
