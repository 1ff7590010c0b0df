#include "tables/table_files.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include <xxhash.h>

#include "base/list.h"
#include "base/program.h"

static const struct {
    const char *name;
    enum table_kind kind;
} plain_files[] = {
    {"words.yaml", TABLE_WORDS},       {"measures.yaml", TABLE_MEASURES},
    {"limits.yaml", TABLE_LIMITS},     {"cooking.yaml", TABLE_COOKING},
    {"cautions.yaml", TABLE_CAUTIONS}, {"site.yaml", TABLE_SITE},
    {"sources.yaml", TABLE_SOURCES},   {"swaps.yaml", TABLE_SWAPS},
    {"serves.yaml", TABLE_SERVES},     {"serves.csv", TABLE_SERVES},
};

/* the larder that comes with the program has 3 MiB */
enum { TABLE_BYTES_MOST = 64 << 20 };

/* opens a plain file; a pipe, which might never give a byte, and a folder are none, and none is as
 * large as a disk. -1: errno tells.
 */
static int
open_plain(const char *path, struct stat *st)
{
    int fd = open(path, O_RDONLY | O_CLOEXEC | O_NONBLOCK);
    if (fd < 0 || (fstat(fd, st) == 0 && S_ISREG(st->st_mode) && st->st_size <= TABLE_BYTES_MOST))
        return fd;
    int error = S_ISDIR(st->st_mode) ? EISDIR : S_ISREG(st->st_mode) ? EFBIG : ENODEV;
    close(fd);
    errno = error;
    return -1;
}

char *
table_file_bytes(struct arena *a, int fd, size_t length)
{
    char *bytes = arena_take_raw(a, length + 1);
    size_t have = 0;
    while (have < length) {
        ssize_t n = read(fd, bytes + have, length - have);
        if (n < 0 && errno == EINTR)
            continue;
        if (n <= 0)
            return NULL;
        have += (size_t)n;
    }
    bytes[length] = '\0';
    return bytes;
}

/* a whole file; NULL when it is not there or cannot be read (errno tells) */
static char *
read_file(struct arena *a, const char *path, size_t *length)
{
    struct stat st;
    int fd = open_plain(path, &st);
    if (fd < 0)
        return NULL;
    *length = (size_t)st.st_size;
    char *bytes = table_file_bytes(a, fd, *length);
    int error = errno;
    close(fd);
    errno = error;
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
    if (layers->foods != NULL && access(layers->foods, R_OK) != 0)
        return failure_say_errno(f, "%s cannot be read", layers->foods);
    if (layers->foods != NULL)
        add_file(a, layers->foods, TABLE_FOODS, out);
    return true;
}

enum table_part
table_part_of(enum table_kind kind)
{
    return kind == TABLE_FOODS || kind == TABLE_MEASURES || kind == TABLE_WORDS ? PART_FOODS
                                                                                : PART_RULES;
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
        const char *bytes = read_file(a, file->path, &length);
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
    struct slice id = program_id();
    add_bytes(states, all, id.at, id.length);
    bool whole = id.length > 0 || add_file_bytes(states, all, "/proc/self/exe");
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
