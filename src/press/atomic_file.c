#ifdef __linux__
#define _GNU_SOURCE /* syncfs: one flush for a batch of files */
#endif
#include "press/atomic_file.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

#define XXH_STATIC_LINKING_ONLY /* its state on the stack */
#include <xxhash.h>

#include "press/beneath.h"

static const char temporary_prefix[] = ".dariole-";

bool
atomic_file_get(int fd, char *bytes, size_t most, size_t *length)
{
    ssize_t n = 0;
    *length = 0;
    while (*length < most &&
           ((n = read(fd, bytes + *length, most - *length)) > 0 || (n < 0 && errno == EINTR)))
        *length += n > 0 ? (size_t)n : 0;
    return *length == most || n == 0;
}

bool
atomic_file_read_start(struct arena *a, const char *path, size_t most, struct slice *out,
                       struct failure *f)
{
    struct stat s;
    if (stat(path, &s) != 0)
        return failure_say_errno(f, "%s", path);
    /* taken before the file is opened: running out of memory leaves nothing open. A byte more than
     * the file has, so that one that grows is seen. */
    size_t room = s.st_size < 0 || (uintmax_t)s.st_size >= most ? most : (size_t)s.st_size + 1;
    size_t length;
    char *bytes = arena_take(a, room + 1);
    int fd = open(path, O_RDONLY | O_CLOEXEC);
    if (fd < 0)
        return failure_say_errno(f, "%s", path);
    bool good = atomic_file_get(fd, bytes, room, &length) || failure_say_errno(f, "%s", path);
    int error = errno;
    close(fd);
    errno = error;
    if (good && length == room && room < most)
        return failure_say(f, "%s: grew while it was read", path);
    *out = (struct slice){bytes, length};
    return good;
}

bool
atomic_file_read(struct arena *a, const char *path, size_t most, struct slice *out,
                 struct failure *f)
{
    struct stat s;
    if (stat(path, &s) == 0 && (uintmax_t)s.st_size > most)
        return failure_say(f, "%s: more than %zu bytes", path, most);
    return atomic_file_read_start(a, path, most + 1, out, f) &&
           (out->length <= most || failure_say(f, "%s: more than %zu bytes", path, most));
}

bool
atomic_file_folders(int folder, const char *path, struct failure *f)
{
    char part[4096];
    for (const char *slash = strchr(path, '/'); slash != NULL; slash = strchr(slash + 1, '/')) {
        size_t n = (size_t)(slash - path);
        if (n == 0)
            continue;
        if (n >= sizeof part)
            return failure_say(f, "%.80s...: the path is too long", path);
        memcpy(part, path, n);
        part[n] = '\0';
        if (mkdirat(folder, part, 0777) != 0 && errno != EEXIST)
            return failure_say_errno(f, "%s", part);
    }
    return true;
}

uint64_t
atomic_file_stamp(const struct stat *s)
{
    uint64_t parts[6] = {(uint64_t)s->st_size,        (uint64_t)s->st_ino,
                         (uint64_t)s->st_mtim.tv_sec, (uint64_t)s->st_mtim.tv_nsec,
                         (uint64_t)s->st_ctim.tv_sec, (uint64_t)s->st_ctim.tv_nsec};
    uint64_t stamp = XXH3_64bits(parts, sizeof parts);
    return stamp != 0 ? stamp : 1;
}

uint64_t
atomic_file_when(const struct stat *s)
{
    return (uint64_t)s->st_ctim.tv_sec * UINT64_C(1000000000) + (uint64_t)s->st_ctim.tv_nsec;
}

void
atomic_file_outwait(uint64_t when)
{
    struct timespec t;
    clock_gettime(CLOCK_REALTIME, &t);
    uint64_t now = (uint64_t)t.tv_sec * UINT64_C(1000000000) + (uint64_t)t.tv_nsec;
    if (when > now || now - when >= ATOMIC_FILE_TICK_NS)
        return;
    t = (struct timespec){0, ATOMIC_FILE_TICK_NS - (long)(now - when)};
    nanosleep(&t, NULL);
}

static bool
within_tick(const struct timespec *changed, const struct timespec *now)
{
    /* whole seconds: a file system that keeps no more, or two (FAT) */
    int64_t tick = changed->tv_nsec == 0 ? 2000000000 : ATOMIC_FILE_TICK_NS;
    int64_t seconds = (int64_t)now->tv_sec - changed->tv_sec;
    return seconds < 4 && seconds * 1000000000 + now->tv_nsec - changed->tv_nsec < tick;
}

bool
atomic_file_fresh(const struct stat *s)
{
    struct timespec now;
    clock_gettime(CLOCK_REALTIME, &now);
    return within_tick(&s->st_ctim, &now) || within_tick(&s->st_mtim, &now);
}

bool
atomic_file_holds(int folder, const char *name, struct slice bytes)
{
    struct stat s;
    int fd = openat(folder, name, O_RDONLY | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK);
    if (fd < 0)
        return false;
    bool same = fstat(fd, &s) == 0 && S_ISREG(s.st_mode) && (uintmax_t)s.st_size == bytes.length;
    char part[16384];
    for (size_t at = 0; same && at < bytes.length;) {
        ssize_t n = read(fd, part, sizeof part);
        if (n < 0 && errno == EINTR)
            continue;
        same =
            n > 0 && (size_t)n <= bytes.length - at && memcmp(part, bytes.at + at, (size_t)n) == 0;
        at += n > 0 ? (size_t)n : 0;
    }
    close(fd);
    return same;
}

bool
atomic_file_digest(int folder, const char *path, uint64_t most, uint64_t *digest)
{
    struct stat s;
    XXH3_state_t state;
    char part[32768];
    ssize_t n = 0;
    int fd = beneath_open(folder, path, O_RDONLY | O_NONBLOCK);
    if (fd < 0)
        return false;
    bool good = fstat(fd, &s) == 0 && S_ISREG(s.st_mode);
    XXH3_64bits_reset(&state);
    while (good && most > 0) {
        n = read(fd, part, most < sizeof part ? (size_t)most : sizeof part);
        if (n < 0 && errno == EINTR)
            continue;
        if (n <= 0)
            break;
        XXH3_64bits_update(&state, part, (size_t)n);
        most -= (uint64_t)n;
    }
    close(fd);
    *digest = XXH3_64bits_digest(&state);
    return good && n >= 0;
}

bool
atomic_file_read_plain(struct arena *a, int folder, const char *name, size_t most,
                       struct slice *out)
{
    struct stat s;
    size_t length = 0;
    int fd = beneath_open_plain(folder, name, O_RDONLY, &s);
    if (fd < 0)
        return false;
    bool good = (uintmax_t)s.st_size <= most;
    close(fd);
    if (!good) {
        errno = EFBIG;
        return false;
    }
    /* taken while nothing is open: where memory runs out, nothing stays open */
    char *bytes = arena_take(a, (size_t)s.st_size + 1);
    fd = beneath_open_plain(folder, name, O_RDONLY, &s);
    good = fd >= 0 && atomic_file_get(fd, bytes, (size_t)s.st_size, &length);
    if (fd >= 0)
        close(fd);
    *out = (struct slice){bytes, length};
    return good;
}

bool
atomic_file_put(int fd, const void *bytes, size_t length)
{
    const char *at = bytes;
    while (length > 0) {
        ssize_t n = write(fd, at, length);
        if (n < 0 && errno == EINTR)
            continue;
        if (n == 0)
            errno = ENOSPC;
        if (n <= 0)
            return false;
        at += n;
        length -= (size_t)n;
    }
    return true;
}

void
atomic_file_temporary(char name[64], unsigned n)
{
    snprintf(name, 64, "%s%ld-%u.tmp", temporary_prefix, (long)getpid(), n);
}

int
atomic_file_begin(struct atomic_file_batch *b, int folder, unsigned *temporary, struct failure *f)
{
    char name[64];
    *temporary = b->number;
    b->number += b->step;
    atomic_file_temporary(name, *temporary);
    int fd = openat(folder, name, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    if (fd < 0 && errno == EEXIST && unlinkat(folder, name, 0) == 0)
        fd = openat(folder, name, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    if (fd < 0)
        failure_say_errno(f, "a temporary file cannot be made");
    return fd;
}

void
atomic_file_drop(int folder, unsigned temporary)
{
    char name[64];
    atomic_file_temporary(name, temporary);
    unlinkat(folder, name, 0);
}

bool
atomic_file_wait(struct atomic_file_batch *b, int folder, unsigned temporary, const char *name,
                 bool replaces, uint64_t tag, struct failure *f)
{
    size_t length = strlen(name) + 1;
    if (b->count == b->room) {
        size_t room = b->room == 0 ? 64 : b->room * 2;
        void *more = realloc(b->waiting, room * sizeof *b->waiting);
        if (more == NULL)
            return failure_say(f, "%s: out of memory", name);
        b->waiting = more;
        b->room = room;
    }
    if (b->names_room - b->names_used < length) {
        size_t room = b->names_room * 2 + length + 2048;
        void *more = realloc(b->names, room);
        if (more == NULL)
            return failure_say(f, "%s: out of memory", name);
        b->names = more;
        b->names_room = room;
    }
    memcpy(b->names + b->names_used, name, length);
    b->waiting[b->count++] = (struct atomic_file_waiting){folder, temporary, b->names_used, tag};
    b->names_used += length;
    b->replaces = b->replaces || replaces;
    return true;
}

bool
atomic_file_add(struct atomic_file_batch *b, int folder, const char *name, bool replaces,
                struct slice bytes, uint64_t tag, struct failure *f)
{
    unsigned temporary;
    int fd = atomic_file_begin(b, folder, &temporary, f);
    if (fd < 0)
        return false;
    bool good = atomic_file_put(fd, bytes.at, bytes.length);
    if (!good)
        failure_say_errno(f, "%s", name);
    if (close(fd) != 0 && good)
        good = failure_say_errno(f, "%s", name);
    if (good && atomic_file_wait(b, folder, temporary, name, replaces, tag, f))
        return true;
    int error = errno;
    atomic_file_drop(folder, temporary);
    errno = error;
    return false;
}

/* renames over whatever stands there; an empty folder holds nothing of anyone's and goes */
static bool
take_name(int folder, const char *from, const char *name)
{
    return renameat(folder, from, folder, name) == 0 ||
           (errno == EISDIR && unlinkat(folder, name, AT_REMOVEDIR) == 0 &&
            renameat(folder, from, folder, name) == 0);
}

/* a temporary file gets its name */
static bool
give_name(const struct atomic_file_batch *b, const struct atomic_file_waiting *w, struct stat *s,
          struct failure *f)
{
    char temporary[64];
    const char *name = b->names + w->name;
    atomic_file_temporary(temporary, w->temporary);
    if (!take_name(w->folder, temporary, name)) {
        int error = errno;
        failure_say_errno(f, "%s", name);
        unlinkat(w->folder, temporary, 0);
        errno = error;
        return false;
    }
    if (fstatat(w->folder, name, s, AT_SYMLINK_NOFOLLOW) != 0)
        return failure_say_errno(f, "%s", name);
    return true;
}

bool
atomic_file_commit(struct atomic_file_batch *b, bool flushed,
                   const struct atomic_file_teller *teller, struct failure *f)
{
    bool all =
        b->count == 0 || !b->replaces || flushed || atomic_file_flush(b->waiting[0].folder, f);
    bool on_disk = all;
    int error = errno;
    for (size_t i = 0; i < b->count; i++) {
        struct stat s;
        struct failure own;
        own.text[0] = '\0';
        bool good = on_disk && give_name(b, &b->waiting[i], &s, &own);
        if (!on_disk) {
            atomic_file_drop(b->waiting[i].folder, b->waiting[i].temporary);
            errno = error;
        }
        if (!good && all)
            *f = own;
        all = all && good;
        teller->tell(teller->ctx, b->waiting[i].tag, good ? &s : NULL, on_disk ? &own : f);
    }
    b->unflushed = b->unflushed || (b->count > 0 && !flushed && !b->replaces);
    b->count = b->names_used = 0;
    b->replaces = false;
    return all;
}

void
atomic_file_batch_close(struct atomic_file_batch *b)
{
    for (size_t i = 0; i < b->count; i++)
        atomic_file_drop(b->waiting[i].folder, b->waiting[i].temporary);
    free(b->waiting);
    free(b->names);
    *b = (struct atomic_file_batch){.number = b->number, .step = b->step};
}

bool
atomic_file_flush(int folder, struct failure *f)
{
#ifdef __linux__
    int failed = syncfs(folder);
#else
    sync();
    int failed = fsync(folder);
#endif
    return failed == 0 || failure_say_errno(f, "the disk does not take what was written");
}

DIR *
atomic_file_reading(int folder)
{
    int again = openat(folder, ".", O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    DIR *d = again >= 0 ? fdopendir(again) : NULL;
    if (d == NULL && again >= 0)
        close(again);
    return d;
}

void
atomic_file_sweep(int folder)
{
    DIR *d = atomic_file_reading(folder);
    if (d == NULL)
        return;
    for (struct dirent *e; (e = readdir(d)) != NULL;) {
        struct slice name = slice_of(e->d_name);
        if (slice_begins(name, temporary_prefix) && slice_ends(name, ".tmp"))
            unlinkat(folder, e->d_name, 0);
    }
    closedir(d);
}

static void
tell_nobody(void *ctx, uint64_t tag, const struct stat *s, const struct failure *f)
{
    (void)ctx, (void)tag, (void)s, (void)f;
}

const struct atomic_file_teller atomic_file_no_teller = {tell_nobody, NULL};

bool
atomic_file_write(struct arena *a, const char *path, struct slice bytes, struct failure *f)
{
    const char *slash = strrchr(path, '/'), *name = slash != NULL ? slash + 1 : path;
    const char *folder = slash == NULL   ? "."
                         : slash == path ? "/"
                                         : text_format(a, "%.*s", (int)(slash - path), path);
    struct atomic_file_batch b = {.step = 1};
    struct stat s;
    const int in = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (in < 0)
        return failure_say_errno(f, "%s", path);
    const bool there = fstatat(in, name, &s, AT_SYMLINK_NOFOLLOW) == 0;
    const bool good = atomic_file_add(&b, in, name, there, bytes, 0, f) &&
                      atomic_file_commit(&b, false, &atomic_file_no_teller, f);
    atomic_file_batch_close(&b);
    close(in);
    return good;
}
