#define _XOPEN_SOURCE 700 /* realpath */
#include "press/session.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

#include "press/atomic_file.h"
#include "press/beneath.h"
#include "tables/table_confinement.h"

enum { LOCK_WAIT_SECONDS = 30 };

static bool
open_folder(const char *path, int *out, struct failure *f)
{
    *out = open(path, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    return *out >= 0 || failure_say_errno(f, "%s", path);
}

/* a folder of OUT, made where it is not there; never a link, which could lead anywhere */
static bool
make_folder(struct session *s, const char *name, bool *made, int *out, struct failure *f)
{
    const int in = s->folders[FOLDER_OUT];
    const char *path = s->options->out;
    struct stat st;
    *made = mkdirat(in, name, 0777) == 0;
    if (!*made && errno != EEXIST)
        return failure_say_errno(f, "%s/%s", path, name);
    *out = openat(in, name, O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
    if (*out < 0 && fstatat(in, name, &st, AT_SYMLINK_NOFOLLOW) == 0 && S_ISLNK(st.st_mode))
        return failure_say(f, "%s/%s is a link; outputs are written into folders of their own",
                           path, name);
    return *out >= 0 || failure_say_errno(f, "%s/%s", path, name);
}

/* one press at a time on one OUT */
static bool
lock(struct session *s, struct failure *f)
{
    const struct flock whole = {.l_type = F_WRLCK, .l_whence = SEEK_SET};
    const struct timespec while_waiting = {0, 50000000};
    struct flock other = whole;
    struct stat st;
    s->lock_file = beneath_open_plain(s->hidden, "lock", O_RDWR | O_CREAT, &st);
    if (s->lock_file < 0)
        return failure_say_errno(f, "%s/.dariole/lock", s->options->out);
    for (int tries = 0; fcntl(s->lock_file, F_SETLK, &whole) != 0; tries++) {
        if (errno != EACCES && errno != EAGAIN && errno != EINTR)
            return failure_say_errno(f, "%s/.dariole/lock", s->options->out);
        if (tries == 4)
            fprintf(stderr, "dariole: another press is at work in %s; waiting for it\n",
                    s->options->out);
        if (tries >= LOCK_WAIT_SECONDS * 20) {
            long pid = fcntl(s->lock_file, F_GETLK, &other) == 0 && other.l_type != F_UNLCK
                           ? (long)other.l_pid
                           : 0;
            return failure_say(f, "another press (process %ld) is still at work in %s", pid,
                               s->options->out);
        }
        nanosleep(&while_waiting, NULL);
    }
    return true;
}

static bool
open_content(struct session *s, struct failure *f)
{
    if (!open_folder(s->options->content, &s->content, f))
        return false;
    char *whole = realpath(s->options->content, NULL);
    if (whole == NULL)
        return failure_say_errno(f, "%s", s->options->content);
    const char *slash = strrchr(whole, '/');
    const bool here = strcmp(s->options->content, ".") == 0; /* so that paths lead from here */
    snprintf(s->shown, sizeof s->shown, "%s", here ? "." : slash != NULL ? slash + 1 : whole);
    free(whole);
    return true;
}

static bool
open_out(struct session *s, struct failure *f)
{
    const char *path = s->options->out;
    bool good = atomic_file_folders(AT_FDCWD, text_format(s->arena, "%s/", path), f) &&
                open_folder(path, &s->folders[FOLDER_OUT], f) &&
                make_folder(s, ".dariole", &s->made[FOLDER_OUT], &s->hidden, f) && lock(s, f);
    for (int i = 0; good && i < FOLDER_OUT; i++)
        good = make_folder(s, output_folders[i], &s->made[i], &s->folders[i], f);
    return good;
}

void
session_begin(struct session *s, const struct press_options *o, struct arena *a)
{
    *s = (struct session){.options = o, .arena = a, .content = -1, .hidden = -1, .lock_file = -1};
    for (int i = 0; i < FOLDERS; i++)
        s->folders[i] = -1;
}

bool
session_open(struct session *s, struct failure *f)
{
    struct stat st;
    if (!open_content(s, f) || !open_out(s, f))
        return false;
    s->cut_off = s->journal = fstatat(s->hidden, "journal", &st, AT_SYMLINK_NOFOLLOW) == 0;
    if (s->cut_off)
        session_sweep(s);
    return true;
}

bool
session_confine(struct session *s, struct failure *f)
{
    struct confinement c;
    if (!s->options->confined)
        return true;
    confinement_begin(&c);
    confinement_allow_open(&c, s->content, CONFINEMENT_READ);
    confinement_allow_open(&c, s->folders[FOLDER_OUT], CONFINEMENT_WRITE);
    const bool good = table_confinement_allow(s->arena, &s->layers, &c, f);
    if (good)
        confinement_enter(&c);
    return good;
}

void
session_sweep(const struct session *s)
{
    for (int i = 0; i < FOLDERS; i++)
        atomic_file_sweep(s->folders[i]);
    atomic_file_sweep(s->hidden);
}

bool
session_begin_journal(struct session *s, struct failure *f)
{
    struct stat st;
    if (s->journal)
        return true;
    int fd = beneath_open_plain(s->hidden, "journal", O_WRONLY | O_CREAT, &st);
    if (fd < 0 || close(fd) != 0)
        return failure_say_errno(f, "%s/.dariole/journal", s->options->out);
    s->journal = true;
    return true;
}

void
session_end_journal(struct session *s)
{
    if (s->journal)
        unlinkat(s->hidden, "journal", 0);
    s->journal = false;
}

bool
session_load_tables(struct session *s, struct failure *f)
{
    if (s->tables != NULL)
        return true;
    struct tables *t = arena_take(s->arena, sizeof *t);
    if (!tables_load(s->arena, &s->layers, NULL, t, f))
        return false;
    s->tables = t;
    return true;
}

void
session_withdraw(struct session *s)
{
    const int out = s->folders[FOLDER_OUT];
    for (int i = 0; i < FOLDER_OUT; i++)
        if (s->made[i])
            unlinkat(out, output_folders[i], AT_REMOVEDIR);
    if (!s->made[FOLDER_OUT])
        return;
    unlinkat(s->hidden, "pieces-1", 0);
    unlinkat(s->hidden, "lock", 0);
    unlinkat(out, ".dariole", AT_REMOVEDIR);
}

static void
close_file(int *fd)
{
    if (*fd >= 0)
        close(*fd);
    *fd = -1;
}

void
session_close(struct session *s)
{
    for (int i = 0; i < FOLDERS; i++)
        close_file(&s->folders[i]);
    close_file(&s->content);
    close_file(&s->lock_file); /* lets the next press in */
    close_file(&s->hidden);
}
