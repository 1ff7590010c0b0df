/* The pieces that posts give to gathered files, kept in one file beside the ledger, so that what
 * gathers all posts is joined without reading a post again, and never held in memory at once.
 *
 * New pieces are only ever added behind those of the ledger that stands; a press that is cut off
 * leaves that ledger's pieces as they were. Pieces of one kind that were written together lie
 * together, so that joining one gathered file reads long stretches. */
#ifndef PRESS_PIECES_H
#define PRESS_PIECES_H

#include <pthread.h>

#include "press/ledger.h"

struct pieces {
    int fd, folder;
    uint64_t number; /* file pieces-NUMBER in the folder */
    uint64_t end;    /* bytes in use; guarded by the lock */
    pthread_mutex_t lock;
    bool damaged; /* a piece was not what the ledger says */
};

/* opens the file a ledger names, or a new empty one when `fresh`. *whole false: it is not there or
 * shorter than the ledger says. False when the machine fails. */
bool pieces_open(struct pieces *p, int folder, const struct ledger *l, bool fresh, bool *whole,
                 struct failure *f);
void pieces_close(struct pieces *p);

/* pieces on their way to the file, gathered by kind; one per thread */
struct piece_tray {
    struct ledger_block kinds[RECORD_PIECES];
    struct ledger_post **owners; /* whose pieces lie here, to be told where they went */
    size_t count, room, bytes;
};

/* the record's pieces go to the tray and their lengths and checks to the post; where they lie is
 * known after pieces_write. A piece that `before` holds already stays where it is. */
bool pieces_add(struct pieces *p, struct piece_tray *tray, const struct record *r,
                const struct ledger_post *before, struct ledger_post *post, struct failure *f);
bool pieces_write(struct pieces *p, struct piece_tray *tray, struct failure *f);
void pieces_tray_close(struct piece_tray *tray);

/* reads pieces of one kind one after another; each stays until the next is asked for */
struct piece_reader {
    struct pieces *pieces;
    char *window; /* bytes from..from + held of the file */
    uint64_t from;
    size_t held, room;
};

/* false when the file does not hold what the ledger says, or memory fails */
bool pieces_read(struct piece_reader *r, const struct ledger_piece *piece, struct slice *out,
                 struct failure *f);
void pieces_reader_close(struct piece_reader *r);

/* copies the posts' pieces into a new file when most of this one is no longer used; the old file
 * stays for the ledger that stands, until pieces_forget */
bool pieces_tidy(struct pieces *p, struct ledger *l, struct failure *f);
/* removes every pieces file but this one */
void pieces_forget(const struct pieces *p);

#endif
