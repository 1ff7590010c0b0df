/* The limits of one phase over the sheet of a dish: what each entry counts, and which loads a limit
 * concerns. */
#ifndef RECKON_SHARES_H
#define RECKON_SHARES_H

#include "reckon/sheet.h"
#include "reckon/standing.h"

/* the largest share of what is pooled */
#define SHARE_POOLED 0.1

/* an ingredient that is not there */
enum { WAY_NONE = 0xff };

/* a limit that a dish is held against: of one food's serve, or of all foods of the portion */
struct limit_case {
    size_t column;
    size_t serve; /* of the sheet; SIZE_MAX: the whole portion */
};

/* the limits of one phase over a sheet */
struct shares {
    const struct sheet *sheet;
    const struct phase *phase;
    struct reads *reads;
    double over_at, close_at;
    const struct given_serve **serves; /* by load of the sheet; NULL: composition holds */
    struct content **sitting; /* by entry of the sheet: what counts in the total of a sitting */
    size_t sitting_made;      /* the first so many of these have their spread */
    unsigned *columns; /* by serve: bits 1 << column, the cases of one food that come to something
                          in some way to make the dish */
    unsigned whole;    /* the cases of the whole portion that do */
};

void shares_build(struct arena *a, const struct sheet *s, int phase, struct reads *reads,
                  struct shares *out);
/* of a sheet that was changed from another's */
void shares_change(struct arena *a, const struct shares *before, const struct sheet *s,
                   struct shares *out);
/* before the total of a sitting is reckoned with its spread */
void shares_build_sitting(struct shares *s);
/* whether a case can come to anything in any way to make the dish */
bool shares_concern_any(const struct shares *s, const struct limit_case *c);

/* the entries of a case, in the order of the sheet; SIZE_MAX: no more */
size_t shares_first(const struct shares *s, const struct limit_case *c);
size_t shares_next(const struct shares *s, const struct limit_case *c, size_t entry);

/* what an entry of the sheet holds of a column, g in 100 g */
const struct content *shares_content(const struct shares *s, size_t entry, size_t column);
/* whether some of it is there, or may be */
bool content_is_something(const struct content *c);
/* the writer's serve of a load; NULL: its composition holds */
const struct given_serve *shares_serve(const struct shares *s, const struct load *l);
/* whether a case concerns a load */
bool shares_concern(const struct shares *s, const struct limit_case *c, const struct load *l);
/* whether a load is taken where the choices are settled so */
bool shares_taken(const struct shares *s, const struct load *l, const uint8_t *ways);

/* all lines of one entry together that have no serve: the content is one figure, whatever the lines
 */
struct entry_amount {
    double grams, extra; /* g in the portion; what is beside it without an amount, at most */
    struct moments moments;
    const struct load *chief; /* the line that brings most of it */
    size_t count;
};
/* adds one of its lines */
void entry_amount_add(struct entry_amount *sum, const struct load *l);
struct entry_amount shares_amount(const struct shares *s, size_t entry, const uint8_t *ways);
/* its spread, g */
struct distribution shares_amount_spread(const struct shares *s, size_t entry, const uint8_t *ways);
/* adds small parts to a sum by their moments, together as one log-normal */
void shares_add_pooled(struct distribution *to, struct moments pooled);
/* a limit in g that can be divided by: a limit of zero makes any load far too much */
double limit_divisor(const struct figure *limit);

#endif
