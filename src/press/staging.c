#include "press/staging.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "press/output_name.h"

enum { NAME_MOST = 16 };

/* pictures are few: they are placed as any other file */
static const int filled_aside[] = {FOLDER_FRAGMENTS, FOLDER_DATA, FOLDER_PREVIEW};
enum { FILLED = sizeof filled_aside / sizeof *filled_aside };

/* without the stroke behind it, with which a link would be followed */
static void
name_of(int folder, char name[NAME_MOST])
{
    snprintf(name, NAME_MOST, "%s", output_folder(folder));
    name[strcspn(name, "/")] = '\0';
}

void
staging_begin(struct pressing *p)
{
    for (int i = 0; i < FILLED; i++) {
        const int folder = filled_aside[i], out = p->folders[FOLDER_OUT];
        char name[NAME_MOST];
        struct stat s;
        name_of(folder, name);
        p->staged[folder] = p->vacant[folder] && fstatat(out, name, &s, AT_SYMLINK_NOFOLLOW) == 0 &&
                            S_ISDIR(s.st_mode) && renameat(out, name, p->hidden, name) == 0;
    }
}

/* file by file, where somebody else made the folder meanwhile and put something in it */
static bool
merge(struct pressing *p, int folder, const char *name, struct failure *f)
{
    int there = openat(p->folders[FOLDER_OUT], name, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    DIR *d = there >= 0 ? atomic_file_reading(p->folders[folder]) : NULL;
    bool good = d != NULL;
    for (struct dirent *e; good && (e = readdir(d)) != NULL;)
        good = strcmp(e->d_name, ".") == 0 || strcmp(e->d_name, "..") == 0 ||
               renameat(p->folders[folder], e->d_name, there, e->d_name) == 0;
    if (!good)
        failure_say_errno(f, "%s", name);
    if (d != NULL)
        closedir(d);
    if (good) {
        close(p->folders[folder]);
        p->folders[folder] = there;
        unlinkat(p->hidden, name, AT_REMOVEDIR);
    } else if (there >= 0) {
        close(there);
    }
    return good;
}

static bool
put_back(struct pressing *p, int folder, struct failure *f)
{
    char name[NAME_MOST];
    name_of(folder, name);
    if (renameat(p->hidden, name, p->folders[FOLDER_OUT], name) == 0)
        return true;
    if (errno == ENOTEMPTY || errno == EEXIST)
        return merge(p, folder, name, f);
    return failure_say_errno(f, "%s", name);
}

/* whether a file stands under its name that is not whole, and could not be removed */
static bool
is_torn(const struct pressing *p)
{
    for (unsigned i = 0; p->workers != NULL && i < p->options.threads; i++)
        if (p->workers[i].batch.torn)
            return true;
    return false;
}

bool
staging_put_back(struct pressing *p, struct failure *f)
{
    bool all = true;
    for (int i = 0; i < FILLED; i++) {
        const int folder = filled_aside[i];
        if (!p->staged[folder])
            continue;
        p->staged[folder] = false;
        if (is_torn(p))
            all = failure_say(f, "%s is left as it was", output_folder(folder));
        else
            all = put_back(p, folder, f) && all;
    }
    return all;
}

void
staging_clear(const struct pressing *p)
{
    for (int i = 0; i < FILLED; i++) {
        char name[NAME_MOST];
        name_of(filled_aside[i], name);
        const int left = openat(p->hidden, name, O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
        DIR *d = left >= 0 ? atomic_file_reading(left) : NULL;
        for (struct dirent *e; d != NULL && (e = readdir(d)) != NULL;)
            unlinkat(left, e->d_name, 0); /* fails for "." and "..", as it should */
        if (d != NULL)
            closedir(d);
        if (left >= 0) {
            close(left);
            unlinkat(p->hidden, name, AT_REMOVEDIR);
        }
    }
}
