/* A small linear program: the most of a weighted sum over all amounts, none below zero, that keep
 * to a list of rows. Solved exactly, but for rounding. */
#ifndef BASE_LINEAR_PROGRAM_H
#define BASE_LINEAR_PROGRAM_H

#include <stdbool.h>

#include "base/list.h"

enum linear_sense { LINEAR_AT_MOST, LINEAR_EXACTLY, LINEAR_AT_LEAST };

struct linear_row {
    double *weights; /* one for each amount */
    enum linear_sense sense;
    double bound;
};

struct linear_program {
    struct arena *arena;
    size_t amounts;
    LIST_OF(struct linear_row) rows;
    struct tableau *first, *work; /* solved once, and for each aim from there; NULL: not yet */
    bool fits;                    /* something keeps to all rows */
};

struct linear_program linear_open(struct arena *a, size_t amounts);
/* a new row; its weights, all zero, are for the caller to fill in; none after the first aim */
double *linear_add(struct linear_program *p, enum linear_sense sense, double bound);
/* the most of the weighted sum; `at`, unless NULL, gets the amounts that make it. NAN: nothing
 * keeps to all rows. Some row must bound every amount. */
double linear_most(struct linear_program *p, const double *weights, double *at);

#endif
