#include "press/pieces.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "press/atomic_file.h"
#include "press/beneath.h"

enum { TRAY_BYTES = 2 << 20, TRAY_POSTS = 1024, WINDOW_BYTES = 128 << 10 };

static const char pieces_prefix[] = "pieces-";

static void
name_file(char name[64], uint64_t number)
{
    snprintf(name, 64, "%s%" PRIu64, pieces_prefix, number);
}

bool
pieces_open(struct pieces *p, int folder, const struct ledger *l, bool fresh, bool *whole,
            struct failure *f)
{
    char name[64];
    struct stat s;
    *p = (struct pieces){.fd = -1, .folder = folder};
    p->number = fresh ? l->head.pieces_file + 1 : l->head.pieces_file;
    p->end = fresh ? 0 : l->head.pieces_end;
    pthread_mutex_init(&p->lock, NULL);
    name_file(name, p->number);
    if (fresh)
        unlinkat(folder, name, 0);
    p->fd = beneath_open_plain(folder, name, fresh ? O_RDWR | O_CREAT | O_EXCL : O_RDWR, &s);
    *whole = p->fd >= 0 && (uint64_t)s.st_size >= p->end;
    if (p->fd < 0 && (fresh || (errno != ENOENT && errno != EINVAL)))
        return failure_say_errno(f, ".dariole/%s", name);
    return true;
}

void
pieces_close(struct pieces *p)
{
    if (p->fd >= 0)
        close(p->fd);
    p->fd = -1;
    pthread_mutex_destroy(&p->lock);
}

static bool
tray_put(struct ledger_block *b, struct slice s)
{
    if (b->room - b->used < s.length) {
        size_t room = b->used + s.length + b->room / 2 + 16384;
        void *bytes = realloc(b->bytes, room);
        if (bytes == NULL)
            return false;
        b->bytes = bytes;
        b->room = room;
    }
    memcpy((char *)b->bytes + b->used, s.at, s.length);
    b->used += s.length;
    return true;
}

/* marks a piece that stays in the tray until the tray is written */
static const uint64_t in_tray = UINT64_C(1) << 63;

bool
pieces_add(struct pieces *p, struct piece_tray *tray, const struct record *r,
           const struct ledger_post *before, struct ledger_post *post, struct failure *f)
{
    if (tray->count == TRAY_POSTS || tray->bytes >= TRAY_BYTES)
        if (!pieces_write(p, tray, f))
            return false;
    if (tray->owners == NULL) {
        tray->owners = malloc(TRAY_POSTS * sizeof *tray->owners);
        if (tray->owners == NULL)
            return failure_say(f, "out of memory");
    }
    for (int k = 0; k < RECORD_PIECES; k++) {
        struct slice s = r->pieces[k];
        struct ledger_piece *piece = &post->pieces[k];
        *piece = (struct ledger_piece){0, 0, (uint32_t)s.length};
        if (s.length == 0)
            continue;
        if (s.length > UINT32_MAX)
            return failure_say(f, "a piece is too large");
        piece->check = slice_digest(s, 0);
        if (before != NULL && before->pieces[k].check == piece->check &&
            before->pieces[k].length == piece->length) {
            piece->at = before->pieces[k].at;
            continue;
        }
        piece->at = in_tray | tray->kinds[k].used;
        if (!tray_put(&tray->kinds[k], s))
            return failure_say(f, "out of memory");
        tray->bytes += s.length;
    }
    tray->owners[tray->count++] = post;
    return true;
}

static bool
put_at(int fd, const void *bytes, size_t length, uint64_t at)
{
    const char *from = bytes;
    while (length > 0) {
        ssize_t n = pwrite(fd, from, length, (off_t)at);
        if (n < 0 && errno == EINTR)
            continue;
        if (n == 0)
            errno = ENOSPC;
        if (n <= 0)
            return false;
        from += n;
        at += (uint64_t)n;
        length -= (size_t)n;
    }
    return true;
}

bool
pieces_write(struct pieces *p, struct piece_tray *tray, struct failure *f)
{
    uint64_t base[RECORD_PIECES], at = 0;
    for (int k = 0; k < RECORD_PIECES; k++) {
        base[k] = at;
        at += tray->kinds[k].used;
    }
    pthread_mutex_lock(&p->lock);
    uint64_t from = p->end;
    p->end += at;
    pthread_mutex_unlock(&p->lock);
    for (int k = 0; k < RECORD_PIECES; k++)
        if (tray->kinds[k].used > 0 &&
            !put_at(p->fd, tray->kinds[k].bytes, tray->kinds[k].used, from + base[k]))
            return failure_say_errno(f, ".dariole/pieces-%" PRIu64, p->number);
    for (size_t i = 0; i < tray->count; i++)
        for (int k = 0; k < RECORD_PIECES; k++) {
            struct ledger_piece *piece = &tray->owners[i]->pieces[k];
            if ((piece->at & in_tray) != 0)
                piece->at = from + base[k] + (piece->at & ~in_tray);
        }
    for (int k = 0; k < RECORD_PIECES; k++)
        tray->kinds[k].used = 0;
    tray->count = tray->bytes = 0;
    return true;
}

void
pieces_tray_close(struct piece_tray *tray)
{
    for (int k = 0; k < RECORD_PIECES; k++)
        free(tray->kinds[k].bytes);
    free(tray->owners);
    *tray = (struct piece_tray){0};
}

/* the window over at least this piece, and what follows it */
static bool
move_window(struct piece_reader *r, const struct ledger_piece *piece, struct failure *f)
{
    size_t room = piece->length > WINDOW_BYTES ? piece->length : WINDOW_BYTES;
    if (room > r->room) {
        char *fresh = realloc(r->window, room);
        if (fresh == NULL)
            return failure_say(f, "out of memory");
        r->window = fresh;
        r->room = room;
    }
    r->from = piece->at;
    r->held = 0;
    while (r->held < piece->length) {
        ssize_t n = pread(r->pieces->fd, r->window + r->held, r->room - r->held,
                          (off_t)(r->from + r->held));
        if (n < 0 && errno == EINTR)
            continue;
        if (n < 0)
            return failure_say_errno(f, ".dariole/pieces-%" PRIu64, r->pieces->number);
        if (n == 0)
            break;
        r->held += (size_t)n;
    }
    return true;
}

bool
pieces_read(struct piece_reader *r, const struct ledger_piece *piece, struct slice *out,
            struct failure *f)
{
    *out = SLICE("");
    if (piece->length == 0)
        return true;
    if (piece->at < r->from || piece->at + piece->length > r->from + r->held)
        if (!move_window(r, piece, f))
            return false;
    if (piece->at + piece->length <= r->from + r->held)
        *out = (struct slice){r->window + (piece->at - r->from), piece->length};
    bool whole = out->length == piece->length && slice_digest(*out, 0) == piece->check;
    if (!whole) {
        pthread_mutex_lock(&r->pieces->lock);
        r->pieces->damaged = true;
        pthread_mutex_unlock(&r->pieces->lock);
        return failure_say(f, "the ledger is damaged (.dariole/pieces-%" PRIu64 ")",
                           r->pieces->number);
    }
    return true;
}

void
pieces_reader_close(struct piece_reader *r)
{
    free(r->window);
    *r = (struct piece_reader){.pieces = r->pieces};
}

static uint64_t
live_bytes(const struct ledger *l)
{
    uint64_t live = 0;
    for (size_t i = 0; i < ledger_post_count(l); i++)
        for (int k = 0; k < RECORD_PIECES; k++)
            live += ledger_post(l, i)->pieces[k].length;
    for (int k = 0; k < RECORD_PIECES; k++)
        live += l->head.of_tables.pieces[k].length;
    return live;
}

static bool
copy_kind(struct pieces *to, struct piece_reader *reader, struct ledger *l, int kind,
          struct failure *f)
{
    struct ledger_block out = {0};
    bool good = true;
    uint64_t at = to->end;
    for (size_t i = 0; good && i <= ledger_post_count(l); i++) {
        struct ledger_post *p = i < ledger_post_count(l) ? ledger_post(l, i) : &l->head.of_tables;
        struct ledger_piece *piece = &p->pieces[kind];
        struct slice s;
        good = pieces_read(reader, piece, &s, f);
        if (!good || s.length == 0)
            continue;
        if (!tray_put(&out, s))
            good = failure_say(f, "out of memory");
        piece->at = to->end;
        to->end += s.length;
        if (good && out.used >= TRAY_BYTES) {
            good = put_at(to->fd, out.bytes, out.used, at) ||
                   failure_say_errno(f, ".dariole/pieces-%" PRIu64, to->number);
            at += out.used;
            out.used = 0;
        }
    }
    good = good && (put_at(to->fd, out.bytes, out.used, at) ||
                    failure_say_errno(f, ".dariole/pieces-%" PRIu64, to->number));
    free(out.bytes);
    return good;
}

bool
pieces_tidy(struct pieces *p, struct ledger *l, struct failure *f)
{
    uint64_t live = live_bytes(l);
    l->head.pieces_live = live;
    if (p->end < (uint64_t)1 << 20 || p->end / 3 < live)
        return true;
    struct pieces to;
    bool whole;
    struct ledger from = {.head = {.pieces_file = p->number}};
    if (!pieces_open(&to, p->folder, &from, true, &whole, f))
        return false;
    struct piece_reader reader = {.pieces = p};
    bool good = true;
    for (int k = 0; good && k < RECORD_PIECES; k++)
        good = copy_kind(&to, &reader, l, k, f);
    pieces_reader_close(&reader);
    pieces_close(p);
    *p = to;
    pthread_mutex_init(&p->lock, NULL);
    return good;
}

void
pieces_forget(const struct pieces *p)
{
    char own[64];
    name_file(own, p->number);
    DIR *d = atomic_file_reading(p->folder);
    if (d == NULL)
        return;
    for (struct dirent *e; (e = readdir(d)) != NULL;)
        if (slice_begins(slice_of(e->d_name), pieces_prefix) && strcmp(e->d_name, own) != 0)
            unlinkat(p->folder, e->d_name, 0);
    closedir(d);
}
