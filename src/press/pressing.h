/* A press at work: everything that its steps share, from the open folders to the new entries of the
 * ledger. Steps: check what stands, turn out what changed, settle slugs, gather, put in place, keep
 * the ledger. */
#ifndef PRESS_PRESSING_H
#define PRESS_PRESSING_H

#include "press/pieces.h"
#include "press/atomic_file.h"
#include "press/press.h"
#include "press/plan.h"
#include "press/slugs.h"
#include "press/workers.h"
#include "write/source_line.h"

enum { FOLDER_FRAGMENTS, FOLDER_DATA, FOLDER_PREVIEW, FOLDER_IMAGES, FOLDER_OUT, FOLDERS };

/* what one thread has for itself */
struct press_worker {
    struct atomic_file_batch batch;
    struct piece_tray tray;
};

struct pressing {
    struct press_options options;
    struct arena *arena; /* of the whole press: plan, tables */
    int content, hidden, lock_file, folders[FOLDERS];
    char shown[256]; /* the content folder's name, as it stands before paths in findings */
    struct table_layers layers;
    struct tables tables;
    bool tables_loaded;
    struct ledger ledger; /* posts as they stood; texts, reads, outputs, keys as they come */
    struct plan plan;
    struct pieces pieces;
    struct ledger_post *posts; /* as they stand now, by the plan */
    bool posts_mine;           /* not yet the ledger's */
    unsigned char *changed;    /* by key: its digest is another one in these tables */
    size_t changed_count;
    uint32_t *todo; /* posts to be turned out */
    size_t todo_count;
    struct press_worker *workers;
    struct atomic_file_batch gathered; /* gathered files; guarded by the lock */
    bool journal_left;                 /* ... by a press that was cut off */
    bool contended;                    /* a slug changed hands while posts were turned out */
    bool journal;         /* .dariole/journal is there: something is being put in place */
    bool vacant[FOLDERS]; /* nothing was in it when posts began to be turned out */
    bool staged[FOLDERS]; /* it is filled aside: see press/staging.h */
    bool fresh;           /* there is no ledger of before, or its pieces are lost */
    bool anew;            /* everything is made again */
    bool busy;            /* there is something to do */
    bool whole;           /* it was all done */
    bool has_pieces;
    bool ledger_found; /* whole; that its pieces are, is another question */
    struct {
        int fd;       /* to add to; -1: not yet */
        bool in_step; /* it is as the ledger last left it */
        bool partial; /* there may be outputs of ours that it does not name */
        bool removed; /* some that it names are no longer there */
        bool added;   /* guarded by the lock */
    } manifest;
    pthread_mutex_t lock; /* over what follows, and additions to the ledger */
    struct slugs slugs;
    bool dirty;           /* the ledger must be written */
    bool touched;         /* stamps changed, bytes did not */
    bool halted;          /* the disk takes no more: nothing further is begun */
    uint64_t last_placed; /* ns since the epoch */
    size_t failures;
    struct failure first_failure;
};

#endif
