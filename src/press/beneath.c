#ifdef __linux__
#define _GNU_SOURCE /* O_PATH, syscall */
#endif
#include "press/beneath.h"

#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <unistd.h>
#ifdef __linux__
#include <sys/syscall.h>
#endif
#ifdef SYS_openat2
#include <linux/openat2.h>
#endif

#ifndef O_PATH
#define O_PATH O_RDONLY
#endif

enum { NAME_MOST = 256 };

static bool
is_link(int folder, const char *name)
{
    struct stat s;
    const int error = errno;
    const bool link = fstatat(folder, name, &s, AT_SYMLINK_NOFOLLOW) == 0 && S_ISLNK(s.st_mode);
    errno = error;
    return link;
}

/* one name after another, none of them a link */
static int
open_by_names(int folder, const char *path, int flags)
{
    int in = folder;
    for (const char *at = path;;) {
        char name[NAME_MOST];
        const size_t length = strcspn(at, "/");
        const bool last = at[length] == '\0', climbs = length == 2 && memcmp(at, "..", 2) == 0;
        int fd = -1;
        if (length == 0 || climbs || length >= sizeof name) {
            errno = length >= sizeof name ? ENAMETOOLONG : EXDEV;
        } else {
            memcpy(name, at, length);
            name[length] = '\0';
            fd =
                openat(in, name,
                       last ? flags | O_NOFOLLOW : O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
            if (fd < 0 && is_link(in, name))
                errno = EXDEV;
        }
        const int error = errno;
        if (in != folder)
            close(in);
        errno = error;
        if (fd < 0 || last)
            return fd;
        in = fd;
        at += length + 1;
    }
}

int
beneath_open(int folder, const char *path, int flags)
{
#ifdef SYS_openat2
    const struct open_how how = {.flags = (unsigned)(flags | O_CLOEXEC),
                                 .resolve = RESOLVE_BENEATH | RESOLVE_NO_MAGICLINKS};
    const long fd = syscall(SYS_openat2, folder, path, &how, sizeof how);
    if (fd >= 0 || (errno != ENOSYS && errno != EPERM && errno != E2BIG && errno != EAGAIN))
        return (int)fd;
#endif
    return open_by_names(folder, path, flags | O_CLOEXEC);
}

bool
beneath_stat(int folder, const char *path, struct stat *s)
{
    const int fd = beneath_open(folder, path, O_PATH);
    if (fd < 0)
        return false;
    const bool good = fstat(fd, s) == 0, led_out = good && S_ISLNK(s->st_mode);
    close(fd);
    if (led_out)
        errno = EXDEV;
    return good && !led_out;
}

int
beneath_open_plain(int folder, const char *name, int flags, struct stat *s)
{
    const int fd = openat(folder, name, flags | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC, 0666);
    if (fd < 0) {
        if (errno == ELOOP || errno == ENXIO)
            errno = EINVAL;
        return -1;
    }
    const bool reads = (flags & O_ACCMODE) == O_RDONLY;
    if (fstat(fd, s) == 0 && S_ISREG(s->st_mode) && (reads || s->st_nlink == 1))
        return fd;
    close(fd);
    errno = EINVAL;
    return -1;
}
