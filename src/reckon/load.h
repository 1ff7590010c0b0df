/* What each food of a dish brings into one portion, group by group: the sheet that standing,
 * choices and remedies are reckoned from. Contents and limits are read here, once for a phase. */
#ifndef RECKON_LOAD_H
#define RECKON_LOAD_H

#include "reckon/dish.h"

/* loads of one helping in one portion */
struct helping_load {
    struct span grams;                    /* edible g in one portion */
    struct span load[GROUPS];             /* g; by a tested serve: share x limit */
    struct span share[GROUPS];            /* against the limit of its class */
    const struct figure *content[GROUPS]; /* NULL: not known */
    const struct figure *limit[GROUPS];   /* NULL: not read, or the phase has none */
    bool known[GROUPS];
    bool trace[GROUPS];      /* not known, but cannot pass the limit by itself */
    bool serve_used;         /* the share of the serve's group is grams / tested serve */
    bool serve_disagrees;    /* serve and composition exclude each other; the stricter is used */
    struct span serve_share; /* share of the serve's group that the composition gives one serve */
    double bound[GROUPS];    /* share that what is not known can add at most: INFINITY: no bound */
    bool fresh;              /* fresh produce: fresh_share holds where no other group is carried */
    struct span fresh_share; /* of excess fructose, against the allowance for fresh produce */
    double fresh_bound;      /* bound of excess fructose against it */
    struct span sitting;     /* g that count towards the total of one sitting */
    bool sitting_unknown;    /* an unknown amount of them, not a trace */
};

enum { SITTING = GROUPS, COLUMNS = GROUPS + 1 };

/* one way to settle an ingredient: helpings of one option together, or nothing */
struct sheet_way {
    uint8_t pick; /* 0 left out, else option number + 1 */
    bool alone;   /* carries no group but excess fructose */
    struct span load[COLUMNS];
    struct span share[COLUMNS];
    double bound[COLUMNS];
    struct span fresh_share;
    double fresh_bound;
};

struct sheet_row {
    struct sheet_way *ways; /* at least one */
    size_t count;
};

struct sheet {
    struct helping_load *helpings; /* ingredient, option, helping flattened in order */
    size_t helping_count;
    struct sheet_row *rows; /* by ingredient */
    size_t count;
    bool limited[COLUMNS]; /* the phase limits it; false too where nothing carries it */
    double sitting_limit;  /* g */
    double close_at;
    bool portions_known;
};

/* reads contents and limits. A limit is read only where something carries its group (or could), so
 * that a change of one limit reaches the posts that it can concern and no others. */
void sheet_lay(struct arena *a, const struct dish *d, const struct tables *t, int phase,
               struct reads *reads, struct sheet *out);

/* number of the helping among all of the dish */
size_t sheet_helping(const struct dish *d, size_t ingredient, size_t option, size_t helping);

#endif
