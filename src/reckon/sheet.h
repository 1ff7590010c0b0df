/* The sheet of a dish: what each line brings into one portion, in each way to settle each choice.
 * Contents are read here, once for all phases. */
#ifndef RECKON_SHEET_H
#define RECKON_SHEET_H

#include "reckon/composition.h"
#include "reckon/dish.h"

/* one food of one way to take a line, in one portion */
struct load {
    size_t ingredient, option, number; /* of the helping */
    const struct helping *helping;
    size_t entry;               /* of the sheet's */
    const struct load *next;    /* of the same entry; NULL: none */
    double grams;               /* edible, middle */
    struct distribution amount; /* the same with its spread */
    struct moments moments;     /* of the amount */
    struct widths widths;       /* of the amount, g */
    double extra; /* g that goes in beside it without an amount, at most; INFINITY: no telling */
    bool fresh;   /* raw or frozen fruit or vegetable */
};

/* a larder entry that the dish holds, or a food that the larder does not have */
struct sheet_entry {
    const struct food *food;               /* NULL: not in the larder */
    size_t serve;                          /* entries of one food have one number */
    size_t next;                           /* entry of the same serve; SIZE_MAX: none */
    const struct load *first;              /* its loads, in the order of the dish; NULL: none */
    const struct composition *composition; /* in 100 g */
};

/* one way to settle an ingredient: the loads of one option together, or none */
struct sheet_way {
    uint8_t pick; /* 0 left out, else option number + 1 */
    const struct load *loads;
    size_t count;
};

struct sheet_row {
    struct sheet_way *ways; /* at least one */
    size_t count;
};

struct sheet {
    const struct dish *dish;
    const struct tables *tables;
    struct load *loads; /* in the order of the dish */
    size_t load_count;
    struct sheet_entry *entries;
    size_t entry_count, serve_count;
    size_t *serves;         /* by serve: its first entry */
    struct sheet_row *rows; /* by ingredient */
    size_t count;
    double larger; /* how much less one portion is when the dish makes the most that it says: 1 or
                      more */
};

void sheet_build(struct arena *a, const struct dish *d, const struct tables *t, struct reads *reads,
                 struct sheet *out);

/* The sheet of a dish that some lines were changed in, for trials: what stayed is taken over with
 * its numbers, so that a serve or entry of the one has the same number in the other. `changed`
 * gets, by serve, whether any line of it differs. */
void sheet_change(struct arena *a, const struct sheet *before, const struct dish *d,
                  struct reads *reads, struct sheet *out, bool **changed);

/* the load of a helping of the dish */
const struct load *sheet_load(const struct sheet *s, size_t ingredient, size_t option,
                              size_t number);

/* g of a group that a load brings: middle, 5th and 95th percentile */
struct span load_brings(const struct sheet *s, const struct load *l, enum group g);
/* g of the food in one portion, alike */
struct span load_grams(const struct load *l);

#endif
