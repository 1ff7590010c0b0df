#ifdef __linux__
#define _GNU_SOURCE /* O_TMPFILE, AT_EMPTY_PATH */
#endif
#include "press/nameless.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <unistd.h>

#if defined O_TMPFILE && defined AT_EMPTY_PATH

/* errors by which a system says that it does not know what is asked (open(2), link(2)) */
static bool
is_not_known(int error)
{
    return error == EOPNOTSUPP || error == EISDIR || error == ENOENT || error == EINVAL ||
           error == ENOSYS || error == EPERM || error == EXDEV;
}

int
nameless_open(int folder, enum nameless *how)
{
    int fd = openat(folder, ".", O_WRONLY | O_TMPFILE | O_CLOEXEC, 0666);
    if (fd < 0 && is_not_known(errno))
        *how = NAMELESS_NOT_KNOWN;
    return fd;
}

bool
nameless_link(int fd, int folder, const char *name, enum nameless *how)
{
    /* some systems allow it to the superuser alone */
    if (*how == NAMELESS_BY_LINK) {
        if (linkat(fd, "", folder, name, AT_EMPTY_PATH) == 0)
            return true;
        if (!is_not_known(errno))
            return false;
        *how = NAMELESS_BY_PROC;
    }
    char path[64];
    snprintf(path, sizeof path, "/proc/self/fd/%d", fd);
    if (linkat(AT_FDCWD, path, folder, name, AT_SYMLINK_FOLLOW) == 0)
        return true;
    if (is_not_known(errno))
        *how = NAMELESS_NOT_KNOWN;
    return false;
}

#else

int
nameless_open(int folder, enum nameless *how)
{
    (void)folder;
    *how = NAMELESS_NOT_KNOWN;
    errno = ENOSYS;
    return -1;
}

bool
nameless_link(int fd, int folder, const char *name, enum nameless *how)
{
    (void)fd;
    (void)folder;
    (void)name;
    *how = NAMELESS_NOT_KNOWN;
    errno = ENOSYS;
    return false;
}

#endif
