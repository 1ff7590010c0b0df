/* A press at work: everything that its steps share, from the open folders to the new entries of the
 * ledger. Steps: check what stands, turn out what changed, settle slugs, gather, put in place, keep
 * the ledger. */
#ifndef PRESS_PRESSING_H
#define PRESS_PRESSING_H

#include "press/pieces.h"
#include "press/place.h"
#include "press/plan.h"
#include "press/slugs.h"
#include "press/workers.h"

struct press_options {
    const char *content, *out;
    unsigned threads;
    int heading_level; /* of a fragment's title */
    bool progress;     /* a line on standard error with count and rate */
};

enum { FOLDER_FRAGMENTS, FOLDER_DATA, FOLDER_PREVIEW, FOLDER_OUT, FOLDERS };

/* what one thread has for itself */
struct press_hand {
    struct place_batch batch;
    struct piece_tray tray;
    char *bytes; /* of the post at work */
    size_t bytes_room;
    uint32_t *ids;
    size_t ids_room;
};

struct pressing {
    struct press_options options;
    struct arena *arena; /* of the whole press: plan, tables */
    int content, hidden, lock_file, folders[FOLDERS];
    const char *shown; /* the content folder's name, as it stands before paths in findings */
    struct table_layers layers;
    struct tables tables;
    bool tables_loaded;
    struct ledger ledger; /* posts as they stood; texts, reads, outputs, keys as they come */
    struct plan plan;
    struct pieces pieces;
    struct ledger_post *posts; /* as they stand now, by the plan */
    unsigned char *changed;    /* by key: its digest is another one in these tables */
    size_t changed_count;
    uint32_t *todo; /* posts to be turned out */
    size_t todo_count;
    struct press_hand *hands;
    bool journal; /* .dariole/journal is there: something is being put in place */
    pthread_mutex_t lock; /* over what follows, and additions to the ledger */
    struct slugs slugs;
    int journal_file;
    bool dirty;  /* the ledger must be written */
    bool halted; /* the disk takes no more: nothing further is begun */
    bool redo;   /* a post lost its slug to an earlier one while both were at work */
    size_t failures;
    struct failure first_failure;
};

/* notes that the machine failed; the first is the one told */
void pressing_failed(struct pressing *p, const struct failure *f, bool halt);
/* whether the post has outputs in place */
bool pressing_published(const struct ledger_post *post);
/* the name of an output: its pattern with the slug in it, NUL-terminated; its folder's number */
int pressing_output_name(const struct ledger *l, struct slice slug, uint32_t pattern,
                         char name[512]);

/* turns one post out: reads, compiles, writes its outputs and its record. Whatever happens,
 * p->posts[i] says how it now stands. */
void pressing_turn(struct pressing *p, struct worker *w, size_t i);
/* after pressing_turn ran out of memory */
void pressing_exhausted(struct pressing *p, size_t i);
/* told by a batch which outputs are in place */
void pressing_placed(void *pressing, uint64_t tag, const struct stat *s, const struct failure *f);

/* findings in the tables' files, as a record of their own */
bool pressing_note_tables(struct pressing *p, struct arena *a, struct failure *f);

/* gives the slugs that were lost and found while posts were turned out their right owners */
void pressing_settle_slugs(struct pressing *p, struct worker *w);

/* joins the gathered files that changed; they wait in the hands' batches */
bool pressing_gather(struct pressing *p, bool *stopped, struct failure *f);
/* whether every gathered file is as the ledger says */
bool pressing_gathered_stand(struct pressing *p);

#endif
