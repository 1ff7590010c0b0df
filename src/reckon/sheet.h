/* The sheet of a dish in one phase: what every way to settle every ingredient brings into one
 * portion. Standing, choices and remedies are reckoned from it, without reading a table again. */
#ifndef RECKON_SHEET_H
#define RECKON_SHEET_H

#include "reckon/load.h"

/* one way to settle an ingredient: helpings of one option together, or nothing */
struct sheet_way {
    uint8_t pick;            /* 0 left out, else option number + 1 */
    bool alone;              /* of itself it carries no group but excess fructose: see way_alone */
    uint8_t traces;          /* bits 1 << group: what is not known could add something */
    uint16_t touched;        /* bits 1 << column: of all others load, share and bound are 0 */
    struct brought *columns; /* by column: a lone helping's own, else sums */
    struct span fresh_share;
    double fresh_bound;
};

struct sheet_row {
    struct sheet_way *ways; /* at least one */
    size_t count;
    struct helping_load *loads; /* of all helpings, option by option */
    size_t load_count;
    uint16_t touched; /* the columns that some way touches */
    uint8_t limited;  /* bits 1 << group: the phase limits what some helping brings */
    uint8_t traces;   /* of all ways */
    bool unsure;      /* what is not known could add something */
};

struct sheet {
    struct helping_load *helpings; /* all rows' loads in order */
    size_t helping_count;
    struct sheet_row *rows; /* by ingredient */
    size_t count;
    struct sheet_way fixed; /* all rows of one way together; alone: each of them is */
    size_t *choices;        /* the rows of more ways than one */
    size_t choice_count;
    uint16_t touched;      /* the columns that some way touches */
    bool unsure;           /* some row is: else all that is brought grows with the portion */
    uint8_t heavy;         /* bits 1 << group: traces together could pass its limit */
    bool limited[COLUMNS]; /* the phase limits it; false too where nothing carries it */
    double sitting_limit;  /* g */
    double close_at;
    bool portions_known;
    struct limit_scope limit_scope;
};

/* whether a way or a sheet (its `touched`) brings anything of a column */
static inline bool
column_touched(unsigned touched, size_t column)
{
    return (touched >> column & 1) != 0;
}

/* whether the way carries no group but excess fructose: what carries a trace of a group whose
 * traces together could pass its limit carries that */
static inline bool
way_alone(const struct sheet *s, const struct sheet_way *way)
{
    return way->alone && (way->traces & s->heavy) == 0;
}

/* reads contents and limits. A limit is read only where something carries its group (or could), so
 * that a change of one limit reaches the posts that it can concern and no others. */
void sheet_lay(struct arena *a, const struct dish *d, const struct tables *t, int phase,
               struct reads *reads, struct sheet *out);

/* the loads of a helping of the dish that the sheet was laid for */
const struct helping_load *sheet_load(const struct sheet *s, const struct dish *d,
                                      size_t ingredient, size_t option, size_t helping);

#endif
