/* A press at work: everything that its steps share, from the open folders to the new entries of the
 * ledger. Steps: check what stands, turn out what changed, settle slugs, gather, put in place, keep
 * the ledger. */
#ifndef PRESS_PRESSING_H
#define PRESS_PRESSING_H

#include "press/pieces.h"
#include "press/place.h"
#include "press/press.h"
#include "press/plan.h"
#include "press/slugs.h"
#include "press/workers.h"

enum { FOLDER_FRAGMENTS, FOLDER_DATA, FOLDER_PREVIEW, FOLDER_IMAGES, FOLDER_OUT, FOLDERS };

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
    int content, hidden, lock_file, journal_file, folders[FOLDERS];
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
    struct press_hand *hands;
    struct place_batch gathered; /* gathered files; guarded by the lock */
    bool journal;  /* .dariole/journal is there: something is being put in place */
    bool fresh;    /* there is no ledger of before, or its pieces are lost */
    bool anew;     /* everything is made again */
    bool busy;     /* there is something to do */
    bool whole;    /* it was all done */
    bool has_pieces;
    pthread_mutex_t lock; /* over what follows, and additions to the ledger */
    struct slugs slugs;
    bool dirty;  /* the ledger must be written */
    bool touched; /* stamps changed, bytes did not */
    bool halted; /* the disk takes no more: nothing further is begun */
    uint64_t last_placed; /* ns since the epoch */
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

/* holds posts and outputs against the ledger: sets `why` in the plan */
bool pressing_check(struct pressing *p, bool *stopped, struct failure *f);
/* asks the loaded tables for every key of the ledger, and plans the posts that read a changed one
 */
bool pressing_ask_tables(struct pressing *p, struct failure *f);

/* turns one post out: reads, compiles, writes its outputs and its record. Whatever happens,
 * p->posts[i] says how it now stands. */
void pressing_turn(struct pressing *p, struct worker *w, size_t i);
/* the post stays what it was, to be made again the next time */
void pressing_keep_failed(struct pressing *p, size_t i);
/* after pressing_turn ran out of memory */
void pressing_exhausted(struct pressing *p, size_t i);
/* told by a batch which outputs are in place */
void pressing_placed(void *pressing, uint64_t tag, const struct stat *s, const struct failure *f);

/* gives the outputs that wait in all hands their names */
void pressing_place_outputs(struct pressing *p, bool flushed);

/* findings in the tables' files, as a record of their own */
bool pressing_note_tables(struct pressing *p, struct failure *f);

/* gives the slugs that were lost and found while posts were turned out their right owners */
void pressing_settle_slugs(struct pressing *p, struct worker *w);

/* joins the gathered files that changed; they wait in their batch */
bool pressing_gather(struct pressing *p, bool *stopped, struct failure *f);
/* puts them in place */
bool pressing_place_gathered(struct pressing *p, bool flushed, struct failure *f);
/* whether every gathered file is as the ledger says */
bool pressing_gathered_stand(struct pressing *p);

/* removes the outputs that no post has any more; foreign files are not touched */
void pressing_remove_old(struct pressing *p);

/* a press that was broken off leaves that to the next, by way of the journal */
bool pressing_journal_old(struct pressing *p, struct failure *f);
bool pressing_note_slug(struct pressing *p, struct slice slug, struct failure *f);

/* opens OUT and all that is in it, one press at a time; sweeps after one that was cut off */
bool pressing_open(struct pressing *p, struct failure *f);
bool pressing_begin_journal(struct pressing *p, struct failure *f);
void pressing_close(struct pressing *p);

/* for each post made again what made it so; while the ledger's posts are those of before */
void pressing_tell_why(struct pressing *p);
/* findings and the last line, as the options ask */
bool pressing_tell(struct pressing *p, struct press_result *r, struct failure *f);

#endif
