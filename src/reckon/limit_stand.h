/* One limit over all variants of a dish: how it stands at worst and at best, and in each way to
 * settle the choices that it hangs on. */
#ifndef RECKON_LIMIT_STAND_H
#define RECKON_LIMIT_STAND_H

#include "reckon/share.h"

/* worst and best are those of the largest and the least standing, and among these of middle */
struct limit_stand {
    struct limit_case of;
    struct share worst, best;
    enum standing standing, best_standing;
    size_t *rows; /* the choices that it hangs on: ingredients */
    size_t row_count;
    double way_count;        /* the product of their ways */
    enum standing *resolved; /* two by way of each of its rows, the last changing first: the
                                standing, and that of the most portions. NULL: so many that only the
                                extremes were reckoned, by the ways that bring most and least of it,
                                or it is within in all */
};

/* whether the phase limits a case that comes to something; noted */
bool limit_stand_holds(const struct shares *s, const struct limit_case *c);
/* a case that holds. s: what counts in a sitting is built in it where it is needed */
void limit_stand_reckon(struct arena *a, struct shares *s, const struct limit_case *c,
                        struct limit_stand *out);
/* whether it stands no worse than `most`, within or unknown, in every way: for trials */
bool limit_stand_keeps(struct arena *a, struct shares *s, const struct limit_case *c,
                       enum standing most);
/* the same by middles and moments alone; false: it does not. *decided: whether that is all that
 * there is to know */
bool limit_stand_may_keep(struct arena *a, const struct shares *s, const struct limit_case *c,
                          enum standing most, bool *decided);

/* how it stands where the choices are settled so; of the most portions that the dish makes, where
 * `larger` */
enum standing limit_stand_at(const struct sheet *s, const struct limit_stand *l,
                             const uint8_t *ways, bool larger);
/* the next way of some rows, the last changing first; false after the last */
bool limit_stand_next(const struct sheet *s, const size_t *rows, size_t count, uint8_t *ways);
/* whether one share is the worse: by its standing, then by its middle */
bool limit_stand_worse(const struct share *one, const struct share *other);

#endif
