/* Makes calls fail, for tests: preloaded, told by the environment. FAULT=malloc or FAULT=write with
 * FAULT_AT=N fails the N-th such call of the process (FAULT_ON: and all after it); the count
 * reached is written to FAULT_COUNT at the end. FAULT=kill ends the process at once, as kill -9
 * does, before the N-th call that changes the disk. FAULT=vanish and FAULT=unreadable concern the
 * post that is opened under FAULT_NAME. */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <unistd.h>

extern void *__libc_malloc(size_t);
extern void *__libc_calloc(size_t, size_t);
extern void *__libc_realloc(void *, size_t);

enum kind { NOTHING, MALLOC, WRITE, KILL, VANISH, UNREADABLE };

static enum kind kind;
static long at, on, calls;
static const char *name;
static int count_file = -1; /* opened before the program confines itself */

__attribute__((constructor)) static void
begin(void)
{
    const char *front_value = getenv("FAULT"), *number = getenv("FAULT_AT");
    name = getenv("FAULT_NAME");
    if (getenv("FAULT_COUNT") != NULL)
        count_file = (int)syscall(SYS_openat, AT_FDCWD, getenv("FAULT_COUNT"),
                                  O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0666);
    on = getenv("FAULT_ON") != NULL;
    at = number != NULL ? atol(number) : 0;
    if (front_value == NULL)
        return;
    kind = strcmp(front_value, "malloc") == 0   ? MALLOC
           : strcmp(front_value, "write") == 0  ? WRITE
           : strcmp(front_value, "kill") == 0   ? KILL
           : strcmp(front_value, "vanish") == 0 ? VANISH
                                                : UNREADABLE;
}

__attribute__((destructor)) static void
end(void)
{
    long reached = calls;
    kind = NOTHING;
    if (count_file >= 0)
        dprintf(count_file, "%ld\n", reached);
}

static int
fails(enum kind of, int error)
{
    if (kind != of && !(kind == KILL && of == WRITE))
        return 0;
    long n = __atomic_add_fetch(&calls, 1, __ATOMIC_RELAXED);
    if (n != at && !(on && at > 0 && n > at))
        return 0;
    if (kind == KILL)
        raise(SIGKILL);
    errno = error;
    return 1;
}

void *
malloc(size_t size)
{
    return fails(MALLOC, ENOMEM) ? NULL : __libc_malloc(size);
}

void *
calloc(size_t count, size_t size)
{
    return fails(MALLOC, ENOMEM) ? NULL : __libc_calloc(count, size);
}

void *
realloc(void *old, size_t size)
{
    return fails(MALLOC, ENOMEM) ? NULL : __libc_realloc(old, size);
}

#define REAL(type, function) ((type)(void *)dlsym(RTLD_NEXT, function))

ssize_t
write(int fd, const void *bytes, size_t length)
{
    if (fd != 2 && fails(WRITE, ENOSPC)) {
        if (length > 1) { /* as a disk that fills: half of it goes */
            ssize_t half =
                REAL(ssize_t(*)(int, const void *, size_t), "write")(fd, bytes, length / 2);
            return at % 2 == 0 ? half : -1;
        }
        return -1;
    }
    return REAL(ssize_t(*)(int, const void *, size_t), "write")(fd, bytes, length);
}

ssize_t
pwrite(int fd, const void *bytes, size_t length, off_t offset)
{
    if (fails(WRITE, ENOSPC))
        return -1;
    return REAL(ssize_t(*)(int, const void *, size_t, off_t), "pwrite")(fd, bytes, length, offset);
}

int
renameat(int from, const char *old, int to, const char *new)
{
    if (fails(WRITE, EIO))
        return -1;
    return REAL(int (*)(int, const char *, int, const char *), "renameat")(from, old, to, new);
}

int
linkat(int from, const char *old, int to, const char *new, int flags)
{
    if (fails(WRITE, EIO))
        return -1;
    return REAL(int (*)(int, const char *, int, const char *, int), "linkat")(from, old, to, new,
                                                                              flags);
}

int
unlinkat(int folder, const char *path, int flags)
{
    if (kind == KILL)
        fails(KILL, EIO);
    return REAL(int (*)(int, const char *, int), "unlinkat")(folder, path, flags);
}

int
fsync(int fd)
{
    return fails(WRITE, EIO) ? -1 : REAL(int (*)(int), "fsync")(fd);
}

int
fdatasync(int fd)
{
    return fails(WRITE, EIO) ? -1 : REAL(int (*)(int), "fdatasync")(fd);
}

int
syncfs(int fd)
{
    return fails(WRITE, EIO) ? -1 : REAL(int (*)(int), "syncfs")(fd);
}

int
mkdirat(int folder, const char *path, mode_t mode)
{
    return fails(WRITE, ENOSPC)
               ? -1
               : REAL(int (*)(int, const char *, mode_t), "mkdirat")(folder, path, mode);
}

int
openat(int folder, const char *path, int flags, ...)
{
    mode_t mode = 0;
    const int makes = (flags & O_CREAT) != 0 || (flags & O_TMPFILE) == O_TMPFILE;
    if (makes) {
        va_list args;
        va_start(args, flags);
        mode = va_arg(args, mode_t);
        va_end(args);
    }
    if (name != NULL && strcmp(path, name) == 0 && kind == VANISH)
        unlinkat(folder, path, 0);
    if (name != NULL && strcmp(path, name) == 0 && kind == UNREADABLE) {
        errno = EACCES;
        return -1;
    }
    if (makes && fails(WRITE, ENOSPC))
        return -1;
    return REAL(int (*)(int, const char *, int, ...), "openat")(folder, path, flags, mode);
}

/* the program opens some files by openat2, for which the C library has no function */
long
syscall(long number, ...)
{
    long a[6];
    va_list args;
    va_start(args, number);
    for (int i = 0; i < 6; i++)
        a[i] = va_arg(args, long);
    va_end(args);
    if (number == SYS_openat2 && name != NULL && kind == UNREADABLE &&
        strcmp((const char *)a[1], name) == 0) {
        errno = EACCES;
        return -1;
    }
    return REAL(long (*)(long, ...), "syscall")(number, a[0], a[1], a[2], a[3], a[4], a[5]);
}
