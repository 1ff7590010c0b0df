#include "press/watch.h"

#include <dirent.h>
#include <errno.h>
#include <limits.h>
#include <poll.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/inotify.h>
#include <sys/stat.h>
#include <unistd.h>

enum { QUIET_MS = 15, DEPTH_MOST = 40 };

static const uint32_t changes = IN_CLOSE_WRITE | IN_MOVED_FROM | IN_MOVED_TO | IN_CREATE |
                                IN_DELETE | IN_DELETE_SELF | IN_MOVE_SELF;

struct watch {
    int fd;
    struct stat out; /* never watched: the press itself writes there */
    bool has_out;
};

static bool
same_file(const struct stat *a, const struct stat *b)
{
    return a->st_dev == b->st_dev && a->st_ino == b->st_ino;
}

static bool
add_folder(struct watch *w, const char *path, int depth, struct failure *f)
{
    struct stat s;
    if (depth > DEPTH_MOST || stat(path, &s) != 0 || (w->has_out && same_file(&s, &w->out)))
        return depth > 0 || failure_say_errno(f, "cannot watch %s", path);
    if (inotify_add_watch(w->fd, path, changes | IN_ONLYDIR) < 0)
        return depth > 0 && (errno == ENOENT || errno == ENOTDIR)
                   ? true
                   : failure_say_errno(f, "cannot watch %s", path);
    DIR *d = opendir(path);
    if (d == NULL)
        return true; /* gone again */
    bool good = true;
    for (struct dirent *e; good && (e = readdir(d)) != NULL;) {
        if (e->d_name[0] == '.')
            continue;
        char inner[PATH_MAX];
        int n = snprintf(inner, sizeof inner, "%s/%s", path, e->d_name);
        if (n > 0 && (size_t)n < sizeof inner && stat(inner, &s) == 0 && S_ISDIR(s.st_mode))
            good = add_folder(w, inner, depth + 1, f);
    }
    closedir(d);
    return good;
}

struct watch *
watch_open(const char *content, const char *out, struct failure *f)
{
    struct watch *w = calloc(1, sizeof *w);
    if (w == NULL) {
        failure_say(f, "the machine has no memory left");
        return NULL;
    }
    w->has_out = stat(out, &w->out) == 0;
    w->fd = inotify_init1(IN_CLOEXEC | IN_NONBLOCK);
    if (w->fd < 0)
        failure_say_errno(f, "cannot watch %s", content);
    if (w->fd < 0 || !add_folder(w, content, 0, f)) {
        watch_close(w);
        return NULL;
    }
    return w;
}

/* takes what events there are; whether one of them is of a file that is not hidden: editors save by
 * way of hidden names */
static bool
take_events(struct watch *w)
{
    _Alignas(struct inotify_event) char bytes[16384];
    bool meant = false;
    for (ssize_t n; (n = read(w->fd, bytes, sizeof bytes)) > 0;)
        for (ssize_t at = 0; at < n;) {
            const struct inotify_event *e = (const struct inotify_event *)(void *)(bytes + at);
            bool hidden = e->len > 0 && (e->name[0] == '.' || e->name[strlen(e->name) - 1] == '~');
            meant = meant || !hidden;
            at += (ssize_t)(sizeof *e + e->len);
        }
    return meant;
}

bool
watch_wait(struct watch *w, struct failure *f)
{
    struct pollfd p = {.fd = w->fd, .events = POLLIN};
    bool changed = false;
    for (;;) {
        int n = poll(&p, 1, changed ? QUIET_MS : -1);
        if (n < 0 && errno != EINTR)
            return failure_say_errno(f, "cannot wait for a change");
        if (n == 0)
            return true;
        if (n > 0)
            changed = take_events(w) || changed;
    }
}

void
watch_close(struct watch *w)
{
    if (w == NULL)
        return;
    if (w->fd >= 0)
        close(w->fd);
    free(w);
}
