#include "tables/table_store.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#include "base/list.h"

/* an image counts as used when it is newer than so many seconds: not each run writes a time */
enum { USED_SECONDS = 3600 };
/* tables a hundred times as large have no larger image; a file that is has holes or is another's */
enum { IMAGE_BYTES_MOST = 512 << 20 };

/* the user's folder for all caches */
static const char *
caches(struct arena *a)
{
    const char *xdg = getenv("XDG_CACHE_HOME"), *home = getenv("HOME");
    if (xdg != NULL && xdg[0] == '/') /* what is relative is to be ignored */
        return xdg;
    return home != NULL && home[0] == '/' ? text_format(a, "%s/.cache", home) : NULL;
}

const char *
table_store_user(struct arena *a)
{
    const char *folder = caches(a);
    return folder != NULL ? text_format(a, "%s/dariole", folder) : NULL;
}

/* Opens the folder, by no link: others might have laid it. -1: it is not there, or not this user's.
 */
static int
open_folder(const char *path)
{
    struct stat st;
    int fd = open(path, O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
    if (fd >= 0 && (fstat(fd, &st) != 0 || st.st_uid != geteuid())) {
        close(fd);
        fd = -1;
        errno = EACCES;
    }
    return fd;
}

/* the same, made where it is not there, with the folder that it is in */
static int
make_folder(struct arena *a, const char *path)
{
    int fd = open_folder(path);
    if (fd >= 0 || errno != ENOENT)
        return fd;
    const char *slash = strrchr(path, '/');
    if (slash != NULL && slash > path)
        mkdir(slice_string(a, (struct slice){path, (size_t)(slash - path)}), 0700);
    mkdir(path, 0700);
    return open_folder(path);
}

int
table_store_open(struct arena *a)
{
    const char *path = table_store_user(a);
    return path != NULL ? make_folder(a, path) : -1;
}

static const char *
name_of(struct arena *a, enum table_part part, struct image_key key)
{
    static const char *const parts[TABLE_PARTS] = {"foods", "rules"};
    return text_format(a, "tables-%016llx%016llx-%s", (unsigned long long)key.high,
                       (unsigned long long)key.low, parts[part]);
}

static bool
is_ours_alone(int fd, struct stat *st)
{
    return fstat(fd, st) == 0 && S_ISREG(st->st_mode) && st->st_uid == geteuid() &&
           (st->st_mode & (S_IWGRP | S_IWOTH)) == 0 && st->st_size <= IMAGE_BYTES_MOST;
}

/* notes that the image is of use, unless that was noted a short while ago */
static void
note_use(int fd, const struct stat *st)
{
    time_t now = time(NULL);
    if (st->st_mtime < now - USED_SECONDS || st->st_mtime > now + USED_SECONDS)
        (void)futimens(fd, NULL); /* it may be on a file system that is only read */
}

char *
table_store_read(struct arena *a, const char *folder, enum table_part part, struct image_key key,
                 size_t *length)
{
    struct stat st;
    char *bytes = NULL;
    int in = open_folder(folder);
    if (in < 0)
        return NULL;
    int fd = openat(in, name_of(a, part, key), O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC);
    close(in);
    if (fd < 0)
        return NULL;
    if (is_ours_alone(fd, &st)) {
        bytes = table_file_bytes(a, fd, (size_t)st.st_size);
        *length = (size_t)st.st_size;
        note_use(fd, &st);
    }
    close(fd);
    return bytes;
}

struct kept {
    const char *name;
    struct timespec used;
};

static int
longest_unused_first(const void *a, const void *b)
{
    const struct kept *x = a, *y = b;
    if (x->used.tv_sec != y->used.tv_sec)
        return x->used.tv_sec < y->used.tv_sec ? -1 : 1;
    if (x->used.tv_nsec != y->used.tv_nsec)
        return x->used.tv_nsec < y->used.tv_nsec ? -1 : 1;
    return strcmp(x->name, y->name);
}

/* takes away images beyond the most, and what runs that were killed left half written, which is
 * unused in its turn */
static void
sweep(struct arena *a, int in)
{
    LIST_OF(struct kept) all = {NULL, 0, 0};
    int again = openat(in, ".", O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    DIR *dir = again >= 0 ? fdopendir(again) : NULL;
    if (dir == NULL) {
        if (again >= 0)
            close(again);
        return;
    }
    for (const struct dirent *d; (d = readdir(dir)) != NULL;) {
        struct stat st;
        if (slice_begins(slice_of(d->d_name), "tables-") &&
            fstatat(in, d->d_name, &st, AT_SYMLINK_NOFOLLOW) == 0)
            *LIST_GROW(a, &all) = (struct kept){slice_string(a, slice_of(d->d_name)), st.st_mtim};
    }
    closedir(dir);
    if (all.count <= STORE_IMAGES_MOST)
        return;
    qsort(all.items, all.count, sizeof *all.items, longest_unused_first);
    for (size_t i = 0; i < all.count - STORE_IMAGES_MOST; i++)
        unlinkat(in, all.items[i].name, 0);
}

static bool
write_whole(int fd, struct slice bytes)
{
    size_t done = 0;
    while (done < bytes.length) {
        ssize_t n = write(fd, bytes.at + done, bytes.length - done);
        if (n < 0 && errno == EINTR)
            continue;
        if (n <= 0)
            return false;
        done += (size_t)n;
    }
    return true;
}

void
table_store_write(struct arena *a, const char *folder, enum table_part part, struct image_key key,
                  struct slice bytes)
{
    int in = make_folder(a, folder);
    if (in < 0)
        return;
    /* the process alone does not tell runs apart where homes are shared */
    struct timespec now = {0, 0};
    clock_gettime(CLOCK_REALTIME, &now);
    const char *name = name_of(a, part, key);
    const char *temporary =
        text_format(a, "%s.%ld.%ld.new", name, (long)getpid(), (long)now.tv_nsec);
    int fd = openat(in, temporary, O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, 0600);
    if (fd >= 0) {
        bool whole = write_whole(fd, bytes);
        whole = close(fd) == 0 && whole;
        if (!whole || renameat(in, temporary, in, name) != 0)
            unlinkat(in, temporary, 0);
        else
            sweep(a, in);
    }
    close(in);
}
