#include "tables/table_files.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#include <xxhash.h>

#include "base/list.h"

static const struct {
    const char *name;
    enum table_kind kind;
} plain_files[] = {
    {"measures.yaml", TABLE_MEASURES}, {"limits.yaml", TABLE_LIMITS},
    {"cautions.yaml", TABLE_CAUTIONS}, {"site.yaml", TABLE_SITE},
    {"sources.yaml", TABLE_SOURCES},
};

/* opens a plain file; a pipe, which might never give a byte, and a folder are none. -1: errno
 * tells.
 */
static int
open_plain(const char *path, struct stat *st)
{
    int fd = open(path, O_RDONLY | O_CLOEXEC | O_NONBLOCK);
    if (fd < 0 || (fstat(fd, st) == 0 && S_ISREG(st->st_mode)))
        return fd;
    int error = S_ISDIR(st->st_mode) ? EISDIR : ENODEV;
    close(fd);
    errno = error;
    return -1;
}

char *
table_file_read(struct arena *a, const char *path, size_t *length)
{
    struct stat st;
    char *bytes = NULL;
    int fd = open_plain(path, &st);
    if (fd >= 0) {
        size_t size = (size_t)st.st_size;
        bytes = arena_take(a, size + 1);
        *length = 0;
        while (*length < size) {
            ssize_t n = read(fd, bytes + *length, size - *length);
            if (n < 0 && errno == EINTR)
                continue;
            if (n <= 0)
                break;
            *length += (size_t)n;
        }
        if (*length < size)
            bytes = NULL;
    }
    if (fd >= 0) {
        int error = errno;
        close(fd);
        errno = error;
    }
    return bytes;
}

static void
add_file(struct arena *a, const char *path, enum table_kind kind, struct table_files *out)
{
    struct stat st;
    if (lstat(path, &st) == 0) /* a link to nothing is not a table that is not there */
        *LIST_GROW(a, out) = (struct table_file){path, kind, {"", 0}, NULL};
}

static int
order_names(const void *a, const void *b)
{
    return strcmp(*(const char *const *)a, *(const char *const *)b);
}

static bool
add_foods(struct arena *a, const char *folder, struct table_files *out, struct failure *f)
{
    LIST_OF(const char *) names = {NULL, 0, 0};
    const char *foods = text_format(a, "%s/foods", folder);
    DIR *dir = opendir(foods);
    if (dir == NULL)
        return errno == ENOENT || errno == ENOTDIR ||
               failure_say_errno(f, "%s cannot be read", foods);
    for (const struct dirent *d; (d = readdir(dir)) != NULL;)
        if (d->d_name[0] != '.' && slice_ends(slice_of(d->d_name), ".yaml"))
            *LIST_GROW(a, &names) = slice_string(a, slice_of(d->d_name));
    closedir(dir);
    if (names.count > 0)
        qsort(names.items, names.count, sizeof *names.items, order_names);
    for (size_t i = 0; i < names.count; i++)
        add_file(a, text_format(a, "%s/%s", foods, names.items[i]), TABLE_FOODS, out);
    return true;
}

bool
table_files_list(struct arena *a, const struct table_layers *layers, struct table_files *out,
                 struct failure *f)
{
    *out = (struct table_files){NULL, 0, 0, 0};
    for (size_t l = 0; l < layers->count; l++) {
        for (size_t i = 0; i < sizeof plain_files / sizeof *plain_files; i++)
            add_file(a, text_format(a, "%s/%s", layers->folders[l], plain_files[i].name),
                     plain_files[i].kind, out);
        if (!add_foods(a, layers->folders[l], out, f))
            return false;
    }
    if (layers->site != NULL)
        add_file(a, layers->site, TABLE_SITE, out);
    return true;
}

enum table_part
table_part_of(enum table_kind kind)
{
    return kind == TABLE_FOODS || kind == TABLE_MEASURES ? PART_FOODS : PART_RULES;
}

bool
table_files_read(struct arena *a, struct table_files *files, enum table_part part,
                 struct failure *f)
{
    files->bytes = 0;
    for (size_t i = 0; i < files->count; i++) {
        struct table_file *file = &files->items[i];
        size_t length = 0;
        if (table_part_of(file->kind) != part)
            continue;
        const char *bytes = table_file_read(a, file->path, &length);
        if (bytes == NULL && (errno == EISDIR || errno == ENODEV))
            return failure_say(f, "%s cannot be read: it is %s, not a plain file", file->path,
                               errno == EISDIR ? "a folder" : "a pipe or a device");
        if (bytes == NULL)
            return failure_say_errno(f, "%s cannot be read", file->path);
        file->bytes = (struct slice){bytes, length};
        files->bytes += length;
    }
    return true;
}

/* adds bytes to the digests of all parts in the set */
static void
add_bytes(XXH3_state_t *const states[TABLE_PARTS], unsigned set, const char *bytes, size_t length)
{
    for (int part = 0; part < TABLE_PARTS; part++)
        if ((set >> part & 1) != 0)
            XXH3_128bits_update(states[part], bytes, length);
}

/* Adds the bytes of a file piece by piece: to hold them all would cost more than to read them. */
static bool
add_file_bytes(XXH3_state_t *const states[TABLE_PARTS], unsigned set, const char *path)
{
    char piece[1 << 15];
    ssize_t n = -1;
    struct stat st;
    int fd = open_plain(path, &st);
    while (fd >= 0 && ((n = read(fd, piece, sizeof piece)) > 0 || (n < 0 && errno == EINTR)))
        if (n > 0)
            add_bytes(states, set, piece, (size_t)n);
    if (fd >= 0)
        close(fd);
    return n == 0;
}

static bool
add_files(const struct table_files *files, XXH3_state_t *const states[TABLE_PARTS])
{
    const unsigned all = (1u << TABLE_PARTS) - 1;
    bool whole = add_file_bytes(states, all, "/proc/self/exe");
    for (size_t i = 0; i < files->count && whole; i++) {
        const struct table_file *file = &files->items[i];
        /* rules speak of regions */
        unsigned set = file->kind == TABLE_MEASURES ? all : 1u << table_part_of(file->kind);
        /* the NUL parts the path from what stands before and behind */
        add_bytes(states, set, file->path, strlen(file->path) + 1);
        whole = add_file_bytes(states, set, file->path);
        add_bytes(states, set, "", 1);
    }
    return whole;
}

bool
table_files_key(const struct table_files *files, struct image_key keys[TABLE_PARTS])
{
    XXH3_state_t *states[TABLE_PARTS];
    bool whole = true;
    for (int part = 0; part < TABLE_PARTS; part++) {
        states[part] = XXH3_createState();
        whole = whole && states[part] != NULL;
        if (states[part] != NULL)
            XXH3_128bits_reset(states[part]);
    }
    whole = whole && add_files(files, states);
    for (int part = 0; part < TABLE_PARTS; part++) {
        XXH128_hash_t h = {0, 0};
        if (whole)
            h = XXH3_128bits_digest(states[part]);
        XXH3_freeState(states[part]);
        keys[part] = (struct image_key){h.low64, h.high64};
    }
    return whole;
}

static const char *
user_folder(struct arena *a)
{
    const char *xdg = getenv("XDG_CACHE_HOME"), *home = getenv("HOME");
    if (xdg != NULL && xdg[0] == '/') {
        mkdir(xdg, 0700);
        return text_format(a, "%s/dariole", xdg);
    }
    if (home == NULL || home[0] != '/')
        return NULL;
    mkdir(text_format(a, "%s/.cache", home), 0700);
    return text_format(a, "%s/.cache/dariole", home);
}

const char *
table_files_cache(struct arena *a, const struct table_layers *layers, const char *folder,
                  enum table_part part)
{
    static const char *const names[TABLE_PARTS] = {"foods", "rules"};
    if (folder == NULL)
        folder = user_folder(a);
    if (folder == NULL || folder[0] == '\0')
        return NULL;
    mkdir(folder, 0700);
    uint64_t digest = 0;
    for (size_t i = 0; i < layers->count; i++) {
        struct stat st;
        uint64_t place[2] = {0, 0};
        if (stat(layers->folders[i], &st) == 0) {
            place[0] = (uint64_t)st.st_dev;
            place[1] = (uint64_t)st.st_ino;
        }
        digest = slice_digest((struct slice){(const char *)place, sizeof place}, digest);
    }
    return text_format(a, "%s/tables-%016llx-%s", folder, (unsigned long long)digest, names[part]);
}

/* caches of folders that nobody has asked for in a month */
static void
sweep(struct arena *a, const char *path)
{
    const char *name = strrchr(path, '/');
    if (name == NULL)
        return;
    const char *folder = slice_string(a, (struct slice){path, (size_t)(name - path)});
    DIR *dir = opendir(folder);
    time_t old = time(NULL) - (time_t)30 * 24 * 60 * 60;
    if (dir == NULL)
        return;
    for (const struct dirent *d; (d = readdir(dir)) != NULL;) {
        struct stat st;
        const char *file = text_format(a, "%s/%s", folder, d->d_name);
        if (slice_begins(slice_of(d->d_name), "tables-") && stat(file, &st) == 0 &&
            st.st_mtime < old)
            unlink(file);
    }
    closedir(dir);
}

void
table_file_write(struct arena *a, const char *path, struct slice bytes)
{
    const char *temporary = text_format(a, "%s.%ld.new", path, (long)getpid());
    int fd = open(temporary, O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0600);
    if (fd < 0)
        return;
    size_t done = 0;
    while (done < bytes.length) {
        ssize_t n = write(fd, bytes.at + done, bytes.length - done);
        if (n < 0 && errno == EINTR)
            continue;
        if (n <= 0)
            break;
        done += (size_t)n;
    }
    bool whole = close(fd) == 0 && done == bytes.length;
    if (!whole || rename(temporary, path) != 0)
        unlink(temporary);
    else
        sweep(a, path);
}
