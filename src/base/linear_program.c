#include "base/linear_program.h"

#include <math.h>
#include <stdbool.h>
#include <stdint.h>
#include <string.h>

/* below this a number is rounding */
static const double NOTHING = 1e-9;

/* The simplex method, dense, in two phases, with Bland's rule, which never goes round in a circle
 * (Chvátal, Linear Programming, 1983, chapters 2, 3 and 8; from memory). Columns: amounts, a slack
 * for each row, an artificial amount for each row, the bounds. The last row is the aim. */
struct tableau {
    double *cells;
    size_t rows, width, artificial; /* artificial: the first column of them */
    size_t *basis;
};

struct linear_program
linear_open(struct arena *a, size_t amounts)
{
    return (struct linear_program){.arena = a, .amounts = amounts};
}

double *
linear_add(struct linear_program *p, enum linear_sense sense, double bound)
{
    double *weights = arena_take_array(p->arena, p->amounts, sizeof *weights);
    *LIST_GROW(p->arena, &p->rows) = (struct linear_row){weights, sense, bound};
    return weights;
}

static double *
cell(const struct tableau *t, size_t row, size_t column)
{
    return &t->cells[row * t->width + column];
}

static void
pivot(struct tableau *t, size_t row, size_t column)
{
    const double by = *cell(t, row, column);
    for (size_t j = 0; j < t->width; j++)
        *cell(t, row, j) /= by;
    for (size_t i = 0; i <= t->rows; i++) {
        const double times = *cell(t, i, column);
        if (i == row || fabs(times) <= 0)
            continue;
        for (size_t j = 0; j < t->width; j++)
            *cell(t, i, j) -= times * *cell(t, row, j);
    }
    t->basis[row] = column;
}

/* the row that gives way to a column, of equals the one of the first amount; SIZE_MAX: none */
static size_t
leaving(const struct tableau *t, size_t column)
{
    size_t best = SIZE_MAX;
    double least = INFINITY;
    for (size_t i = 0; i < t->rows; i++) {
        const double by = *cell(t, i, column);
        if (by <= NOTHING)
            continue;
        const double ratio = *cell(t, i, t->width - 1) / by;
        const bool equal = fabs(ratio - least) <= NOTHING;
        if (best == SIZE_MAX || (!equal && ratio < least) ||
            (equal && t->basis[i] < t->basis[best])) {
            best = i;
            least = ratio;
        }
    }
    return best;
}

/* moves towards the aim as long as one of the first columns helps */
static void
improve(struct tableau *t, size_t columns)
{
    for (size_t j = 0; j < columns;) {
        const size_t row = *cell(t, t->rows, j) > NOTHING ? leaving(t, j) : SIZE_MAX;
        if (row == SIZE_MAX) {
            j++;
            continue;
        }
        pivot(t, row, j);
        j = 0;
    }
}

/* artificial amounts that are left at nothing make room for others, where there are any */
static void
clear_artificial(struct tableau *t)
{
    for (size_t i = 0; i < t->rows; i++)
        for (size_t j = 0; t->basis[i] >= t->artificial && j < t->artificial; j++)
            if (fabs(*cell(t, i, j)) > NOTHING)
                pivot(t, i, j);
}

static struct tableau *
tableau_open(const struct linear_program *p)
{
    struct tableau *t = arena_take(p->arena, sizeof *t);
    t->rows = p->rows.count;
    t->artificial = p->amounts + t->rows;
    t->width = t->artificial + t->rows + 1;
    t->cells = arena_take_array(p->arena, (t->rows + 1) * t->width, sizeof *t->cells);
    t->basis = arena_take_array(p->arena, t->rows, sizeof *t->basis);
    return t;
}

static void
lay_out(const struct linear_program *p, struct tableau *t)
{
    for (size_t i = 0; i < t->rows; i++) {
        const struct linear_row *r = &p->rows.items[i];
        const double sign = r->bound < 0 ? -1 : 1;
        for (size_t j = 0; j < p->amounts; j++)
            *cell(t, i, j) = sign * r->weights[j];
        if (r->sense != LINEAR_EXACTLY)
            *cell(t, i, p->amounts + i) = sign * (r->sense == LINEAR_AT_MOST ? 1 : -1);
        *cell(t, i, t->artificial + i) = 1;
        *cell(t, i, t->width - 1) = sign * r->bound;
        t->basis[i] = t->artificial + i;
    }
}

/* first the artificial amounts go to nothing: the aim is less of them */
static bool
find_first(struct tableau *t)
{
    for (size_t i = 0; i < t->rows; i++)
        for (size_t j = 0; j < t->width; j++)
            *cell(t, t->rows, j) += j >= t->artificial && j + 1 < t->width ? 0 : *cell(t, i, j);
    improve(t, t->artificial);
    if (*cell(t, t->rows, t->width - 1) > NOTHING * 1000)
        return false;
    clear_artificial(t);
    return true;
}

/* sets the aim: what a unit more of each column brings, by the basis that stands */
static void
aim(struct tableau *t, const double *weights, size_t amounts)
{
    for (size_t j = 0; j < t->width; j++)
        *cell(t, t->rows, j) = j < amounts ? weights[j] : 0;
    for (size_t i = 0; i < t->rows; i++) {
        const double times = t->basis[i] < amounts ? weights[t->basis[i]] : 0;
        for (size_t j = 0; j < t->width; j++)
            *cell(t, t->rows, j) -= times * *cell(t, i, j);
    }
}

double
linear_most(struct linear_program *p, const double *weights, double *at)
{
    double sum = 0;
    if (p->first == NULL) {
        p->first = tableau_open(p);
        p->work = tableau_open(p);
        lay_out(p, p->first);
        p->fits = find_first(p->first);
    }
    if (!p->fits)
        return NAN;
    struct tableau *t = p->work;
    memcpy(t->cells, p->first->cells, (t->rows + 1) * t->width * sizeof *t->cells);
    memcpy(t->basis, p->first->basis, t->rows * sizeof *t->basis);
    aim(t, weights, p->amounts);
    improve(t, t->artificial);
    for (size_t j = 0; at != NULL && j < p->amounts; j++)
        at[j] = 0;
    for (size_t i = 0; i < t->rows; i++) {
        if (t->basis[i] >= p->amounts)
            continue;
        const double amount = *cell(t, i, t->width - 1);
        sum += weights[t->basis[i]] * amount;
        if (at != NULL)
            at[t->basis[i]] = amount;
    }
    return sum;
}
