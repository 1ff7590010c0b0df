#ifdef __linux__
#define _DEFAULT_SOURCE /* d_type: no stat for each file of a folder */
#endif
#include "press/plan.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define XXH_STATIC_LINKING_ONLY /* its state on the stack */
#include <xxhash.h>

#include "base/list.h"
#include "compile/post_finder.h"
#include "press/atomic_file.h"
#include "tables/table_ask.h"

enum { PATH_BYTES_MOST = 3800 };

struct walk {
    struct arena *arena;
    struct plan *plan;
    struct failure *failure;
    int content;
    char path[PATH_BYTES_MOST + 300]; /* of the folder being listed, "" or with a slash behind */
};

static DIR *
list_folder(int folder, const char *name)
{
    int fd = openat(folder, name, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    DIR *d = fd >= 0 ? fdopendir(fd) : NULL;
    if (d == NULL && fd >= 0)
        close(fd);
    return d;
}

/* what an entry is; a link counts as the file it leads to, a link to a folder is not followed */
static unsigned char
entry_type(int folder, const struct dirent *e)
{
    struct stat s;
    if (e->d_type == DT_REG || e->d_type == DT_DIR)
        return e->d_type;
    if ((e->d_type != DT_LNK && e->d_type != DT_UNKNOWN) ||
        fstatat(folder, e->d_name, &s, AT_SYMLINK_NOFOLLOW) != 0)
        return DT_FIFO;
    if (S_ISDIR(s.st_mode))
        return DT_DIR;
    if (S_ISLNK(s.st_mode) && fstatat(folder, e->d_name, &s, 0) != 0)
        return DT_FIFO;
    return S_ISREG(s.st_mode) ? DT_REG : DT_FIFO;
}

static bool walk_folder(struct walk *w, size_t length);

static bool
walk_entry(struct walk *w, int folder, const struct dirent *e, size_t length)
{
    struct slice name = slice_of(e->d_name);
    bool post = slice_ends(name, ".md") && !slice_is(name, "README.md");
    if (name.at[0] == '.' || (!post && e->d_type == DT_REG))
        return true;
    unsigned char type = entry_type(folder, e);
    if (type == DT_FIFO || (type == DT_DIR && length == 0 && slice_is(name, "tables")))
        return true;
    if (length + name.length + 1 > PATH_BYTES_MOST)
        return failure_say(w->failure, "%.80s...: the path is too long", w->path);
    memcpy(w->path + length, name.at, name.length + 1);
    if (type == DT_DIR) {
        memcpy(w->path + length + name.length, "/", 2);
        return walk_folder(w, length + name.length + 1);
    }
    if (post) {
        const char *path = arena_copy(w->arena, w->path, length + name.length);
        *LIST_GROW(w->arena, w->plan) = (struct planned){.path = path, .before = PLAN_NONE};
    }
    return true;
}

static bool
walk_folder(struct walk *w, size_t length)
{
    DIR *d = list_folder(w->content, length > 0 ? w->path : ".");
    if (d == NULL) /* one that has just gone is no failure; one that is closed to us would look like
                      posts removed */
        return errno == ENOENT || failure_say_errno(w->failure, "%s", w->path);
    bool good = true;
    for (struct dirent *e; good && (errno = 0, e = readdir(d)) != NULL;) {
        good = walk_entry(w, dirfd(d), e, length);
        w->path[length] = '\0';
    }
    if (good && errno != 0)
        good = failure_say_errno(w->failure, "%s", w->path);
    closedir(d);
    return good;
}

static int
by_path(const void *a, const void *b)
{
    return strcmp(((const struct planned *)a)->path, ((const struct planned *)b)->path);
}

bool
plan_find(struct arena *a, int content, struct plan *out, struct failure *f)
{
    struct walk w = {.arena = a, .plan = out, .failure = f, .content = content};
    *out = (struct plan){0};
    if (!walk_folder(&w, 0))
        return false;
    if (out->count > 1)
        qsort(out->items, out->count, sizeof *out->items, by_path);
    return true;
}

void
plan_match(struct plan *p, const struct ledger *l)
{
    size_t known = ledger_post_count(l), k = 0;
    p->removed = 0;
    for (size_t i = 0; i < p->count; i++) {
        struct planned *post = &p->items[i];
        struct slice path = slice_of(post->path);
        int order = -1;
        for (; k < known; k++, p->removed++) {
            order = slice_order(path, ledger_string(l, ledger_post(l, k)->path));
            if (order <= 0)
                break;
        }
        bool same = k < known && order == 0;
        post->before = same ? (uint32_t)k : PLAN_NONE;
        post->why = same ? WHY_NOT : WHY_NEW;
        k += same ? 1 : 0;
    }
    p->removed += known - k;
}

struct stamped_file {
    const char *name;
    uint64_t stamp;
};

struct stamped_files {
    struct arena *arena;
    struct stamped_file *items;
    size_t count, room;
    bool unsure;
};

/* files of a folder of tables and of the folders in it */
static bool
list_tables(struct stamped_files *files, const char *folder, bool inner, struct failure *f)
{
    DIR *d = list_folder(AT_FDCWD, folder);
    if (d == NULL)
        return errno == ENOENT || failure_say_errno(f, "%s", folder);
    struct dirent *e;
    bool good = true;
    while (good && (e = readdir(d)) != NULL) {
        struct stat s;
        if (e->d_name[0] == '.' || (fstatat(dirfd(d), e->d_name, &s, 0) != 0 &&
                                    fstatat(dirfd(d), e->d_name, &s, AT_SYMLINK_NOFOLLOW) != 0))
            continue;
        char *path = text_format(files->arena, "%s/%s", folder, e->d_name);
        /* a pipe or a link to nothing under a table's name counts, so that it is tried and told */
        if (S_ISREG(s.st_mode) || slice_ends(slice_of(e->d_name), ".yaml") ||
            slice_ends(slice_of(e->d_name), ".csv")) {
            *LIST_GROW(files->arena, files) = (struct stamped_file){path, atomic_file_stamp(&s)};
            files->unsure = files->unsure || atomic_file_fresh(&s);
        } else if (S_ISDIR(s.st_mode) && !inner) {
            good = list_tables(files, path, true, f);
        }
    }
    closedir(d);
    return good;
}

static int
by_name(const void *a, const void *b)
{
    return strcmp(((const struct stamped_file *)a)->name, ((const struct stamped_file *)b)->name);
}

bool
plan_tables_stamp(struct arena *a, const struct table_layers *layers, uint64_t *stamp, bool *unsure,
                  struct failure *f)
{
    struct stamped_files files = {.arena = a};
    for (size_t i = 0; i < layers->count; i++)
        if (!list_tables(&files, layers->folders[i], false, f))
            return false;
    struct stat s;
    if (layers->site != NULL && (stat(layers->site, &s) == 0 || lstat(layers->site, &s) == 0)) {
        *LIST_GROW(a, &files) = (struct stamped_file){layers->site, atomic_file_stamp(&s)};
        files.unsure = files.unsure || atomic_file_fresh(&s);
    }
    if (files.count > 1)
        qsort(files.items, files.count, sizeof *files.items, by_name);
    XXH3_state_t state;
    XXH3_64bits_reset(&state);
    for (size_t i = 0; i < layers->count; i++)
        XXH3_64bits_update(&state, layers->folders[i], strlen(layers->folders[i]) + 1);
    for (size_t i = 0; i < files.count; i++) {
        XXH3_64bits_update(&state, files.items[i].name, strlen(files.items[i].name) + 1);
        XXH3_64bits_update(&state, &files.items[i].stamp, sizeof files.items[i].stamp);
    }
    *stamp = XXH3_64bits_digest(&state);
    *unsure = files.unsure;
    return true;
}

bool
plan_ask(struct ledger *l, const struct tables *t, struct arena *scratch, unsigned char *changed)
{
    bool any = false;
    for (size_t i = 0; i < ledger_key_count(l); i++) {
        struct ledger_key *k = ledger_key(l, i);
        if (post_finder_is_key(ledger_string(l, k->key))) /* of no table: see check_members */
            continue;
        uint64_t now = tables_ask(t, scratch, ledger_string(l, k->key));
        changed[i] = now != k->digest;
        any = any || changed[i];
        k->digest = now;
    }
    return any;
}
