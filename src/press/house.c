#define _XOPEN_SOURCE 700 /* realpath */
#include "press/pressing.h"

#include "judge/picture.h"
#include "press/turn.h"
#include "press/house.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

enum { LOCK_WAIT_SECONDS = 30 };

static bool
open_folder(int in, const char *path, int *out, struct failure *f)
{
    *out = openat(in, path, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    return *out >= 0 || failure_say_errno(f, "%s", path);
}

static bool
make_folder(int in, const char *path, int *out, struct failure *f)
{
    if (mkdirat(in, path, 0777) != 0 && errno != EEXIST)
        return failure_say_errno(f, "%s", path);
    return open_folder(in, path, out, f);
}

/* one press at a time on one OUT */
static bool
lock(struct pressing *p, struct failure *f)
{
    const struct flock whole = {.l_type = F_WRLCK, .l_whence = SEEK_SET};
    const struct timespec while_waiting = {0, 50000000};
    struct flock other = whole;
    p->lock_file = openat(p->hidden, "lock", O_RDWR | O_CREAT | O_CLOEXEC, 0666);
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
    if (!open_folder(AT_FDCWD, p->options.content, &p->content, f))
        return false;
    char *whole = realpath(p->options.content, NULL);
    if (whole == NULL)
        return failure_say_errno(f, "%s", p->options.content);
    const char *slash = strrchr(whole, '/');
    snprintf(p->shown, sizeof p->shown, "%s", slash != NULL ? slash + 1 : whole);
    free(whole);
    char *out = text_format(p->arena, "%s/", p->options.out);
    return place_folders(AT_FDCWD, out, f) &&
           make_folder(AT_FDCWD, p->options.out, &p->folders[FOLDER_OUT], f) &&
           make_folder(p->folders[FOLDER_OUT], ".dariole", &p->hidden, f) && lock(p, f) &&
           make_folder(p->folders[FOLDER_OUT], "fragments", &p->folders[FOLDER_FRAGMENTS], f) &&
           make_folder(p->folders[FOLDER_OUT], "data", &p->folders[FOLDER_DATA], f) &&
           make_folder(p->folders[FOLDER_OUT], "preview", &p->folders[FOLDER_PREVIEW], f) &&
           make_folder(p->folders[FOLDER_OUT], "images", &p->folders[FOLDER_IMAGES], f);
}

/* a journal that is there was left by a press that was cut off */
static void
sweep(struct pressing *p)
{
    struct stat s;
    p->journal_left = p->journal = fstatat(p->hidden, "journal", &s, AT_SYMLINK_NOFOLLOW) == 0;
    if (!p->journal)
        return;
    for (int i = 0; i < FOLDERS; i++)
        place_sweep(p->folders[i]);
    place_sweep(p->hidden);
}

bool
pressing_begin_journal(struct pressing *p, struct failure *f)
{
    if (p->journal_file >= 0)
        return true;
    p->journal_file = openat(p->hidden, "journal", O_WRONLY | O_CREAT | O_APPEND | O_CLOEXEC, 0666);
    if (p->journal_file < 0)
        return failure_say_errno(f, "%s/.dariole/journal", p->options.out);
    p->journal = true;
    return true;
}

bool
pressing_open(struct pressing *p, struct failure *f)
{
    if (!open_folders(p, f))
        return false;
    sweep(p);
    return true;
}

/* an output whose slug no post has any more, or whose post no longer makes it */
static void
remove_output(struct pressing *p, struct slice slug, uint32_t pattern)
{
    int64_t holder = slugs_holder(&p->slugs, slug);
    if (holder == SLUG_OF_PROGRAM)
        return;
    if (holder >= 0) {
        const struct ledger_post *post = &p->posts[holder];
        if (post->output_count == 0 && post->state == POST_FAILED)
            return; /* it will be made the next time */
        for (uint32_t i = 0; i < post->output_count; i++)
            if (ledger_output(&p->ledger, post->output + i)->pattern == pattern)
                return;
    }
    char name[512];
    int folder = pressing_output_name(&p->ledger, slug, pattern, name);
    unlinkat(p->folders[folder], name, 0);
}

/* the names of what will be put in place, so that a press that is cut off leaves nothing that the
 * next one takes for another hand's */
bool
pressing_note_slug(struct pressing *p, struct slice slug, struct failure *f)
{
    char line[512];
    size_t length = slug.length < 500 ? slug.length : 500;
    memcpy(line, slug.at, length);
    line[length] = '\n';
    return place_put(p->journal_file, line, length + 1) || failure_say_errno(f, ".dariole/journal");
}

bool
pressing_journal_old(struct pressing *p, struct failure *f)
{
    bool good = true;
    for (size_t i = 0; good && i < ledger_post_count(&p->ledger); i++)
        if (pressing_published(ledger_post(&p->ledger, i)))
            good = pressing_note_slug(
                p, ledger_string(&p->ledger, ledger_post(&p->ledger, i)->slug), f);
    return good;
}

/* the post that a broken-off press copied a picture for may be gone, and no other have its kind */
static void
know_pictures(struct pressing *p)
{
    uint32_t number;
    for (size_t i = 0; picture_endings[i] != NULL; i++)
        ledger_pattern(&p->ledger, text_format(p->arena, "images/*.%s", picture_endings[i]),
                       &number);
}

static void
remove_journalled(struct pressing *p)
{
    int fd = openat(p->hidden, "journal", O_RDONLY | O_CLOEXEC);
    FILE *from = fd >= 0 ? fdopen(fd, "r") : NULL;
    char line[600];
    if (from == NULL) {
        if (fd >= 0)
            close(fd);
        return;
    }
    know_pictures(p);
    while (fgets(line, sizeof line, from) != NULL) {
        struct slice slug = slice_trim(slice_of(line));
        for (uint32_t i = 0; i < p->ledger.head.pattern_count; i++)
            if (slug.length > 0 && slice_find_byte(slug, '/', 0) == SIZE_MAX)
                remove_output(p, slug, i);
    }
    fclose(from);
}

void
pressing_remove_old(struct pressing *p)
{
    for (size_t i = 0; i < ledger_post_count(&p->ledger); i++) {
        const struct ledger_post *old = ledger_post(&p->ledger, i);
        for (uint32_t o = 0; o < old->output_count; o++)
            remove_output(p, ledger_string(&p->ledger, old->slug),
                          ledger_output(&p->ledger, old->output + o)->pattern);
    }
    /* else the journal names only what this press puts in place and keeps */
    if (p->journal_left || p->contended)
        remove_journalled(p);
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
    for (unsigned i = 0; p->hands != NULL && i < p->options.threads; i++) {
        place_batch_close(&p->hands[i].batch);
        pieces_tray_close(&p->hands[i].tray);
        line_memo_close(p->hands[i].memo);
        source_memo_close(p->hands[i].sources);
        free(p->hands[i].bytes);
        free(p->hands[i].ids);
    }
    free(p->hands);
    place_batch_close(&p->gathered);
    slugs_close(&p->slugs);
    if (p->has_pieces)
        pieces_close(&p->pieces);
    if (p->posts_mine)
        free(p->posts);
    ledger_close(&p->ledger);
    for (int i = 0; i < FOLDERS; i++)
        close_file(&p->folders[i]);
    close_file(&p->content);
    close_file(&p->journal_file);
    close_file(&p->lock_file); /* lets the next press in */
    close_file(&p->hidden);
    pthread_mutex_destroy(&p->lock);
}
