/* What becomes of OUT in one press: what an earlier one left (ledger, manifest, pieces), which
 * posts there are, and how each stands as it is made. */
#ifndef PRESS_STATE_H
#define PRESS_STATE_H

#include <pthread.h>

#include "press/atomic_file.h"
#include "press/manifest.h"
#include "press/pieces.h"
#include "press/plan.h"
#include "press/post_index.h"
#include "press/session.h"
#include "press/slugs.h"

/* what one thread has for itself */
struct press_worker {
    struct atomic_file_batch batch;
    struct piece_tray tray;
};

struct press_state {
    struct session *session;
    struct ledger ledger; /* posts as they stood; texts, reads, outputs, keys as they come */
    struct manifest manifest;
    struct pieces pieces;
    bool fresh; /* there is no ledger of before, or its pieces are lost */
    bool anew;  /* everything is made again */

    struct plan plan;
    struct post_index index;   /* of the content folder, for posts that name others */
    struct ledger_post *posts; /* as they stand now, by the plan; NULL once the ledger has them */
    uint32_t *todo;            /* posts to be made */
    size_t todo_count;
    unsigned char *changed; /* by key of the ledger: its digest is another one in these tables */
    size_t changed_count;

    struct press_worker *workers;      /* options->threads of them */
    struct atomic_file_batch gathered; /* gathered files; guarded by the lock */

    pthread_mutex_t lock; /* over what follows, and additions to the ledger */
    struct slugs slugs;
    bool dirty;           /* the ledger must be written */
    bool touched;         /* stamps changed, bytes did not */
    bool halted;          /* the disk takes no more: nothing further is begun */
    uint64_t last_placed; /* ns since the epoch */
    size_t failures;
    struct failure first_failure;
};

void state_begin(struct press_state *p, struct session *s);
/* everything but the session */
void state_close(struct press_state *p);
/* notes that the machine failed; the first failure is the one told. `halt`: the next post would go
 * no better */
void state_fail(struct press_state *p, const struct failure *f, bool halt);
void state_exhausted(struct press_state *p, const char *what);
/* what is only touched, not changed */
void state_touch(struct press_state *p);
/* the post stays what it was, to be made again the next time */
void state_keep_failed(struct press_state *p, size_t i);
/* the name and folder of an output of the ledger; false where no press makes such a file */
bool state_output_name(const struct press_state *p, struct slice slug, uint32_t pattern,
                       char name[OUTPUT_NAME_MOST], enum output_folder *folder);
/* whether the post has outputs in place */
bool state_published(const struct ledger_post *post);

#endif
