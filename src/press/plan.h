/* The plan: which posts there are, which of them are as the ledger says, and why the others are
 * made again. */
#ifndef PRESS_PLAN_H
#define PRESS_PLAN_H

#include "press/ledger.h"
#include "tables/table_cache.h"

enum why {
    WHY_NOT,     /* all is as the ledger says */
    WHY_NEW,     /* not in the ledger */
    WHY_POST,    /* its bytes changed */
    WHY_PICTURE, /* its picture changed, came or went */
    WHY_ENTRY,   /* a table entry that it read changed */
    WHY_OUTPUT,  /* an output is missing or was changed by another hand */
    WHY_PROGRAM, /* the program or an option changed */
    WHY_SLUG,    /* another post took its slug, or gave it free */
    WHY_MEMBER,  /* a post that it gathers or is eaten with changed, came or went */
    WHY_AGAIN,   /* the machine failed it the last time */
    WHY_BESIDE   /* of its pages only the line of what fits beside it changed */
};

struct planned {
    const char *path; /* relative to the content folder */
    uint32_t before;  /* its number in the ledger; PLAN_NONE */
    uint8_t why;      /* enum why */
    bool gone;        /* no file any more, or none that is a post */
    bool made;        /* it was made in this press, or the machine failed it */
    bool slug_lost;   /* another post has the slug under which its last good outputs stood */
};

#define PLAN_NONE UINT32_MAX

struct plan {
    struct planned *items; /* by the bytes of their paths */
    size_t count, room;
    size_t removed; /* posts of the ledger that are no longer there */
};

/* finds the posts: every *.md but README.md, in all folders but the first level's tables/, nothing
 * hidden. Paths live in the arena. */
bool plan_find(struct arena *a, int content, struct plan *out, struct failure *f);
/* lays the plan beside the ledger */
void plan_match(struct plan *p, const struct ledger *l);

/* one number for the files that tables are read from; *unsure when one of them changed just now */
bool plan_tables_stamp(struct arena *a, const struct table_layers *layers, uint64_t *stamp,
                       bool *unsure, struct failure *f);

/* which keys of the ledger have another digest in these tables: `changed` has a byte for each key,
 * 1 when it has. True when any has. The ledger's digests are brought up to date. */
bool plan_ask(struct ledger *l, const struct tables *t, struct arena *scratch,
              unsigned char *changed);

#endif
