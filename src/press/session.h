/* The folders of one press, opened for it alone: the content folder, OUT and what is in it; and the
 * tables, once something needs them. */
#ifndef PRESS_SESSION_H
#define PRESS_SESSION_H

#include "base/failure.h"
#include "press/options.h"
#include "press/outputs.h"
#include "tables/table_cache.h"

struct session {
    const struct press_options *options;
    struct arena *arena;   /* of the whole press: plan, tables */
    char shown[256];       /* the content folder's name, as it stands before paths in findings */
    int content;           /* open folders; -1: not yet */
    int folders[FOLDERS];  /* of OUT */
    int hidden, lock_file; /* OUT/.dariole, its lock */
    bool made[FOLDERS];    /* by this press, with .dariole in the place of OUT */
    bool cut_off;          /* the last press in OUT did not end: it left its journal */
    bool journal;          /* the journal is there: something is being put in place */
    struct table_layers layers;
    struct tables *tables; /* NULL: not loaded */
};

/* nothing is open yet */
void session_begin(struct session *s, const struct press_options *o, struct arena *a);
/* opens all of it, one press at a time on one OUT; sweeps after a press that was cut off */
bool session_open(struct session *s, struct failure *f);
/* From here on the process may read the content folder and the tables, and write OUT and the cache
 * of tables, alone; where that is asked for. The layers are known. */
bool session_confine(struct session *s, struct failure *f);
/* takes away again what it made in OUT, as far as nothing is in it */
void session_withdraw(struct session *s);
void session_close(struct session *s);
/* removes the temporary files of a press that was cut off */
void session_sweep(const struct session *s);
/* the journal says that a press is at work; one that is left says that a press was cut off */
bool session_begin_journal(struct session *s, struct failure *f);
void session_end_journal(struct session *s);
/* loads the tables where they are not */
bool session_load_tables(struct session *s, struct failure *f);

#endif
