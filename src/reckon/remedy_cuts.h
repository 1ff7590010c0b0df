/* The search for remedies, shared by remedy.c (portions, choices), remedy_cuts.c (amounts)
 * and remedy_mixed.c (both together) and by no other room. */
#ifndef RECKON_REMEDY_CUTS_H
#define RECKON_REMEDY_CUTS_H

#include "base/list.h"
#include "reckon/cuts.h"
#include "reckon/remedy.h"

struct remedy_search {
    struct arena *arena;
    const struct dish *dish;
    const struct tables *tables;
    struct reads *reads;
    const struct phase_stand *stand;
    const struct choices *choices;
    struct sheet sheet;
    enum standing target;
    LIST_OF(struct remedy) found;
};

enum share_end { END_MID, END_HIGH, END_UPPER };

/* a column's end that must come down: need = part over what is allowed */
struct excess {
    size_t column;
    enum share_end end;
    double need;
};

struct excesses {
    struct excess items[CUT_NEEDS_MOST];
    size_t count;
    double *effects; /* what cutting an ingredient away would take off each: a row for each
                        ingredient; by remedy_effects */
};

/* the sheet of a changed copy of the dish */
void remedy_sheet(const struct remedy_search *f, const struct dish *d, struct sheet *out);
/* its worst standing */
enum standing remedy_stand_of(struct remedy_search *f, const struct dish *d);
/* whether the dish is short enough to be reckoned anew for each way to settle each choice */
bool remedy_affords(const struct remedy_search *f);
/* the share that a column's mid may have to stand as the search wants it */
double remedy_mid_allowed(const struct remedy_search *f);
/* all that must come down */
struct excesses remedy_excesses(const struct remedy_search *f);
void remedy_effects(const struct remedy_search *f, struct excesses *e);
/* settles a choice of a dish that remedy_copy_dish made; pick 0: leaves the ingredient out */
void remedy_settle(struct dish *d, size_t ingredient, size_t pick);
struct remedy *remedy_add(struct remedy_search *f, enum remedy_kind kind, double amount,
                          enum standing after);
/* a dish whose list of ingredients can be changed without touching the one it was copied from */
struct dish remedy_copy_dish(const struct remedy_search *f);

/* the chief contributor down, or the ingredient of which least must go; false when none is enough
 */
bool remedy_reduce(struct remedy_search *f, const struct excesses *e);
/* two or more ingredients down; false when none are enough */
bool remedy_fewest_cuts(struct remedy_search *f, const struct excesses *e);

#endif
