#define _XOPEN_SOURCE 700 /* realpath */
#include "press/pressing.h"

#include "press/beneath.h"
#include "press/manifest.h"
#include "press/output_name.h"
#include "press/press_session.h"
#include "press/staging.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

enum { LOCK_WAIT_SECONDS = 30 };

static bool
open_folder(const char *path, int *out, struct failure *f)
{
    *out = open(path, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    return *out >= 0 || failure_say_errno(f, "%s", path);
}

/* a folder of OUT, made where it is not there; never a link, which could lead anywhere */
static bool
make_folder(struct pressing *p, const char *name, int *out, struct failure *f)
{
    const int in = p->folders[FOLDER_OUT];
    if (mkdirat(in, name, 0777) != 0 && errno != EEXIST)
        return failure_say_errno(f, "%s/%s", p->options.out, name);
    *out = openat(in, name, O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
    struct stat s;
    if (*out < 0 && fstatat(in, name, &s, AT_SYMLINK_NOFOLLOW) == 0 && S_ISLNK(s.st_mode))
        return failure_say(f, "%s/%s is a link; outputs are written into folders of their own",
                           p->options.out, name);
    return *out >= 0 || failure_say_errno(f, "%s/%s", p->options.out, name);
}

/* one press at a time on one OUT */
static bool
lock(struct pressing *p, struct failure *f)
{
    const struct flock whole = {.l_type = F_WRLCK, .l_whence = SEEK_SET};
    const struct timespec while_waiting = {0, 50000000};
    struct flock other = whole;
    struct stat s;
    p->lock_file = beneath_open_plain(p->hidden, "lock", O_RDWR | O_CREAT, &s);
    if (p->lock_file < 0)
        return failure_say_errno(f, "%s/.dariole/lock", p->options.out);
    for (int tries = 0; fcntl(p->lock_file, F_SETLK, &whole) != 0; tries++) {
        if (errno != EACCES && errno != EAGAIN && errno != EINTR)
            return failure_say_errno(f, "%s/.dariole/lock", p->options.out);
        if (tries == 4)
            fprintf(stderr, "dariole: another press is at work in %s; waiting for it\n",
                    p->options.out);
        if (tries >= LOCK_WAIT_SECONDS * 20) {
            long pid = fcntl(p->lock_file, F_GETLK, &other) == 0 && other.l_type != F_UNLCK
                           ? (long)other.l_pid
                           : 0;
            return failure_say(f, "another press (process %ld) is still at work in %s", pid,
                               p->options.out);
        }
        nanosleep(&while_waiting, NULL);
    }
    return true;
}

static bool
open_folders(struct pressing *p, struct failure *f)
{
    if (!open_folder(p->options.content, &p->content, f))
        return false;
    char *whole = realpath(p->options.content, NULL);
    if (whole == NULL)
        return failure_say_errno(f, "%s", p->options.content);
    const char *slash = strrchr(whole, '/');
    snprintf(p->shown, sizeof p->shown, "%s", slash != NULL ? slash + 1 : whole);
    free(whole);
    char *out = text_format(p->arena, "%s/", p->options.out);
    return atomic_file_folders(AT_FDCWD, out, f) &&
           open_folder(p->options.out, &p->folders[FOLDER_OUT], f) &&
           make_folder(p, ".dariole", &p->hidden, f) && lock(p, f) &&
           make_folder(p, "fragments", &p->folders[FOLDER_FRAGMENTS], f) &&
           make_folder(p, "data", &p->folders[FOLDER_DATA], f) &&
           make_folder(p, "preview", &p->folders[FOLDER_PREVIEW], f) &&
           make_folder(p, "images", &p->folders[FOLDER_IMAGES], f);
}

void
pressing_sweep(const struct pressing *p)
{
    for (int i = 0; i < FOLDERS; i++)
        atomic_file_sweep(p->folders[i]);
    atomic_file_sweep(p->hidden);
    staging_clear(p);
}

/* a journal that is there was left by a press that was cut off */
static void
find_journal(struct pressing *p)
{
    struct stat s;
    p->journal_left = p->journal = fstatat(p->hidden, "journal", &s, AT_SYMLINK_NOFOLLOW) == 0;
    if (p->journal)
        pressing_sweep(p);
}

bool
pressing_begin_journal(struct pressing *p, struct failure *f)
{
    if (p->journal)
        return true;
    struct stat s;
    int fd = beneath_open_plain(p->hidden, "journal", O_WRONLY | O_CREAT, &s);
    if (fd < 0 || close(fd) != 0)
        return failure_say_errno(f, "%s/.dariole/journal", p->options.out);
    p->journal = true;
    return true;
}

bool
pressing_open(struct pressing *p, struct failure *f)
{
    if (!open_folders(p, f))
        return false;
    find_journal(p);
    return true;
}

/* an output whose slug no post has any more, or whose post no longer makes it; `number` is its
 * pattern's in the ledger, or PATTERNS_MOST */
static void
remove_output(struct pressing *p, struct slice slug, struct slice pattern, uint32_t number)
{
    int64_t holder = slugs_holder(&p->slugs, slug);
    if (holder == SLUG_OF_PROGRAM)
        return;
    if (holder >= 0) {
        const struct ledger_post *post = &p->posts[holder];
        if (post->output_count == 0 && post->state == POST_FAILED)
            return; /* it will be made the next time */
        for (uint32_t i = 0; i < post->output_count; i++)
            if (ledger_output(&p->ledger, post->output + i)->pattern == number)
                return;
    }
    char name[OUTPUT_NAME_MOST];
    int folder;
    /* one that was taken away by hand is ours no longer either */
    if (output_file(pattern, slug, name, &folder) &&
        (unlinkat(p->folders[folder], name, 0) == 0 || errno == ENOENT))
        p->manifest.removed = true;
}

static void
remove_named(struct pressing *p, struct slice slug, struct slice pattern)
{
    const struct ledger_head *h = &p->ledger.head;
    uint32_t number = 0;
    while (number < h->pattern_count &&
           !slice_equal(ledger_string(&p->ledger, h->patterns[number]), pattern))
        number++;
    remove_output(p, slug, pattern, number < h->pattern_count ? number : PATTERNS_MOST);
}

bool
pressing_remove_old(struct pressing *p, struct failure *f)
{
    const struct ledger *l = &p->ledger;
    for (size_t i = 0; i < ledger_post_count(l); i++) {
        const struct ledger_post *old = ledger_post(l, i);
        for (uint32_t o = 0; o < old->output_count; o++) {
            uint32_t number = ledger_output(l, old->output + o)->pattern;
            remove_output(p, ledger_string(l, old->slug),
                          ledger_string(l, l->head.patterns[number]), number);
        }
    }
    /* else what the manifest names beside is what this press puts in place and keeps */
    return (p->manifest.in_step && !p->contended) || manifest_each(p, remove_named, f);
}

static void
close_file(int *fd)
{
    if (*fd >= 0)
        close(*fd);
    *fd = -1;
}

void
pressing_close(struct pressing *p)
{
    for (unsigned i = 0; p->workers != NULL && i < p->options.threads; i++) {
        atomic_file_batch_close(&p->workers[i].batch);
        pieces_tray_close(&p->workers[i].tray);
    }
    atomic_file_batch_close(&p->gathered);
    struct failure ignored; /* a press that broke off: what it put into them stays */
    staging_put_back(p, &ignored);
    free(p->workers);
    slugs_close(&p->slugs);
    if (p->has_pieces)
        pieces_close(&p->pieces);
    if (p->posts_mine)
        free(p->posts);
    ledger_close(&p->ledger);
    for (int i = 0; i < FOLDERS; i++)
        close_file(&p->folders[i]);
    close_file(&p->content);
    close_file(&p->manifest.fd);
    close_file(&p->lock_file); /* lets the next press in */
    close_file(&p->hidden);
    pthread_mutex_destroy(&p->lock);
}
