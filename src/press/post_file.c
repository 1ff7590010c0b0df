#include "press/post_file.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static bool
room_for(struct press_worker *h, size_t bytes)
{
    if (bytes <= h->bytes_room)
        return true;
    char *more = realloc(h->bytes, bytes + 4096);
    if (more == NULL)
        return false;
    h->bytes = more;
    h->bytes_room = bytes + 4096;
    return true;
}

bool
post_file_read(int content, const char *shown, const char *path, struct press_worker *h,
               struct stat *s, struct slice *bytes, bool *gone, struct failure *f)
{
    int fd = openat(content, path, O_RDONLY | O_CLOEXEC | O_NONBLOCK);
    *gone = fd < 0 && (errno == ENOENT || errno == ENOTDIR || errno == ELOOP);
    if (fd < 0)
        return *gone || failure_say_errno(f, "%s/%s", shown, path);
    bool good = fstat(fd, s) == 0 || failure_say_errno(f, "%s/%s", shown, path);
    *gone = good && !S_ISREG(s->st_mode);
    size_t most = (size_t)POST_BYTES_MOST + 1, length = 0;
    size_t size = s->st_size < (off_t)most ? (size_t)s->st_size + 1 : most;
    while (good && !*gone && length < most) {
        if (!room_for(h, length + size)) {
            good = failure_say(f, "%s/%s: out of memory", shown, path);
            break;
        }
        ssize_t n = read(fd, h->bytes + length, size);
        if (n < 0 && errno == EINTR)
            continue;
        if (n < 0)
            good = failure_say_errno(f, "%s/%s", shown, path);
        if (n <= 0)
            break;
        length += (size_t)n;
        if ((size_t)n < size && length == (size_t)s->st_size)
            break; /* its end: no need to read it to be told so */
        size = (size_t)n < size ? size - (size_t)n : 4096;
    }
    int error = errno;
    close(fd);
    errno = error;
    *bytes = (struct slice){h->bytes, length};
    return good;
}

const char *
post_file_named(struct arena *a, const char *content, const char *named)
{
    if (named[0] == '/' || access(named, F_OK) == 0)
        return named;
    const size_t n = strlen(content);
    const char *slash = n > 0 && content[n - 1] == '/' ? "" : "/";
    const char *within = text_format(a, "%s%s%s", content, slash, named);
    return access(within, F_OK) == 0 ? within : named;
}
