#define _XOPEN_SOURCE 700 /* realpath */
#include "press/post_file.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "press/atomic_file.h"
#include "press/beneath.h"
#include "read/post.h"

static bool
look(int content, const char *path, struct stat *s, bool *is_link)
{
    if (fstatat(content, path, s, AT_SYMLINK_NOFOLLOW) != 0)
        return false;
    *is_link = S_ISLNK(s->st_mode);
    return !*is_link || beneath_stat(content, path, s);
}

bool
post_file_stat(int content, const char *path, struct stat *s)
{
    bool is_link;
    return look(content, path, s, &is_link);
}

static bool
is_gone(int error)
{
    return error == ENOENT || error == ENOTDIR || error == ELOOP;
}

static bool
say_why(const char *shown, const char *path, struct failure *f)
{
    if (errno == EXDEV)
        return failure_say(f, "%s/%s is a link that leads out of the content folder", shown, path);
    return failure_say_errno(f, "%s/%s", shown, path);
}

bool
post_file_read(struct arena *a, int content, const char *shown, const char *path,
               struct post_file *out, struct failure *f)
{
    const size_t most = (size_t)POST_BYTES_MOST + 1;
    *out = (struct post_file){.bytes = SLICE("")};
    bool is_link;
    if (!look(content, path, &out->stat, &is_link)) {
        out->gone = is_gone(errno);
        return out->gone || say_why(shown, path, f);
    }
    out->gone = !S_ISREG(out->stat.st_mode);
    if (out->gone)
        return true;
    /* taken while nothing is open: where memory runs out, nothing stays open. One byte more than
     * the file has, so that its end is seen. */
    const size_t room = (uintmax_t)out->stat.st_size < most ? (size_t)out->stat.st_size + 1 : most;
    char *bytes = arena_take_raw(a, room);
    const int flags = O_RDONLY | O_NONBLOCK | O_CLOEXEC;
    const int fd =
        is_link ? beneath_open(content, path, flags) : openat(content, path, flags | O_NOFOLLOW);
    if (fd < 0) {
        out->gone = is_gone(errno);
        return out->gone || say_why(shown, path, f);
    }
    bool good = fstat(fd, &out->stat) == 0 && atomic_file_get(fd, bytes, room, &out->bytes.length);
    if (!good)
        say_why(shown, path, f);
    else if (out->bytes.length == room && room < most) {
        errno = 0;
        good = failure_say(f, "%s/%s: grew while it was read", shown, path);
    }
    const int error = errno;
    close(fd);
    errno = error;
    out->bytes.at = bytes;
    out->gone = good && !S_ISREG(out->stat.st_mode);
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

const char *
post_file_within(struct arena *a, const char *content, const char *path)
{
    const char *slash = strrchr(path, '/'), *name = slash != NULL ? slash + 1 : path;
    const char *folder =
        slash == NULL   ? "."
        : slash == path ? "/"
                        : slice_string(a, slice_part(slice_of(path), 0, (size_t)(slash - path)));
    char *root = realpath(content, NULL), *in = realpath(folder, NULL);
    const size_t length = root != NULL ? strlen(root) : 0;
    const char *within = NULL;
    if (root != NULL && in != NULL && strncmp(in, root, length) == 0) {
        if (in[length] == '\0')
            within = slice_string(a, slice_of(name));
        else if (in[length] == '/')
            within = text_format(a, "%s/%s", in + length + 1, name);
    }
    free(root);
    free(in);
    return within;
}
