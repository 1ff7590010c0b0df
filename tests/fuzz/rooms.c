#define _XOPEN_SOURCE 700 /* nftw, mkdtemp */
#include "rooms.h"

#include <dirent.h>
#include <ftw.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static char room[64];

static int
remove_one(const char *path, const struct stat *s, int type, struct FTW *f)
{
    (void)s, (void)type, (void)f;
    return remove(path);
}

void
rooms_remove(const char *path)
{
    nftw(path, remove_one, 16, FTW_DEPTH | FTW_PHYS);
}

static void
remove_room(void)
{
    rooms_remove(room);
}

const char *
rooms_open(void)
{
    struct stat s;
    snprintf(room, sizeof room, "%s/dariole-fuzz-XXXXXX",
             stat("/dev/shm", &s) == 0 ? "/dev/shm" : "/tmp");
    if (mkdtemp(room) == NULL)
        abort();
    atexit(remove_room);
    return room;
}

void
rooms_put(const char *folder, const char *name, const void *bytes, size_t length)
{
    char path[512];
    snprintf(path, sizeof path, "%s/%s", folder, name);
    for (char *slash = strchr(path + 1, '/'); slash != NULL; slash = strchr(slash + 1, '/')) {
        *slash = '\0';
        mkdir(path, 0777);
        *slash = '/';
    }
    FILE *to = fopen(path, "wb");
    if (to == NULL || fwrite(bytes, 1, length, to) != length || fclose(to) != 0)
        abort();
}

static size_t
get(const char *path, char *bytes, size_t most)
{
    FILE *from = fopen(path, "rb");
    const size_t length = from != NULL ? fread(bytes, 1, most, from) : 0;
    if (from != NULL)
        fclose(from);
    return length;
}

static char one_file[4 << 20], other_file[4 << 20];

void
rooms_put_tables(const char *folder)
{
    static const char *const files[] = {"words.yaml", "measures.yaml", "limits.yaml",
                                        "sources.yaml", "foods/soy.yaml"};
    for (size_t i = 0; i < sizeof files / sizeof *files; i++) {
        char path[128];
        snprintf(path, sizeof path, "content/tables/%s", files[i]);
        rooms_put(folder, files[i], one_file, get(path, one_file, sizeof one_file));
    }
}

void
rooms_copy(const char *from, const char *to)
{
    DIR *d = opendir(from);
    for (struct dirent *e; d != NULL && (e = readdir(d)) != NULL;) {
        char path[512], other[512];
        struct stat s;
        snprintf(path, sizeof path, "%s/%s", from, e->d_name);
        snprintf(other, sizeof other, "%s/%s", to, e->d_name);
        if (strcmp(e->d_name, ".") == 0 || strcmp(e->d_name, "..") == 0 || stat(path, &s) != 0)
            continue;
        if (S_ISDIR(s.st_mode))
            rooms_copy(path, other);
        else
            rooms_put(to, e->d_name, one_file, get(path, one_file, sizeof one_file));
    }
    if (d != NULL)
        closedir(d);
}

/* whether everything in one folder is in the other, the same */
static bool
lies_in(const char *one, const char *other)
{
    bool same = true;
    DIR *d = opendir(one);
    for (struct dirent *e; same && d != NULL && (e = readdir(d)) != NULL;) {
        char path[512], twin[512];
        struct stat s;
        snprintf(path, sizeof path, "%s/%s", one, e->d_name);
        snprintf(twin, sizeof twin, "%s/%s", other, e->d_name);
        if (e->d_name[0] == '.' || lstat(path, &s) != 0)
            continue;
        if (S_ISDIR(s.st_mode)) {
            same = lies_in(path, twin);
            continue;
        }
        const size_t length = get(path, one_file, sizeof one_file);
        same = access(twin, F_OK) == 0 && get(twin, other_file, sizeof other_file) == length &&
               memcmp(one_file, other_file, length) == 0;
        if (!same)
            fprintf(stderr, "%s is not as %s\n", path, twin);
    }
    if (d != NULL)
        closedir(d);
    return same;
}

bool
rooms_same(const char *one, const char *other)
{
    return lies_in(one, other) && lies_in(other, one);
}
