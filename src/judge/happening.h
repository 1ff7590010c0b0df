/* What a trigger asks of the clauses of a method: done to which food, where, after what. */
#ifndef JUDGE_HAPPENING_H
#define JUDGE_HAPPENING_H

#include "judge/clauses.h"
#include "tables/cautions.h"

/* where a trigger fired */
struct hit {
    const struct passage *passage; /* NULL: the list or the title as a whole */
    size_t from, to;               /* bytes in its text */
    struct slice what;
    struct place place;
};

/* whether a food of the ingredient carries one of these tags */
bool happening_carries(const struct ingredient *in, const char *const *tags);

/* false: no clause at all says one of the meanings that the trigger asks for */
bool happening_may(const struct judging *j, const struct caution_trigger *t);
/* the first clause that the trigger fires in. foods: the ingredients that it names; prose is asked
 * only for a practice. */
bool happening_find(const struct judging *j, const struct caution_trigger *t, bool practice,
                    const struct ingredient_set *foods, struct hit *hit);
/* whether any clause of steps and notes does one of the trigger's `never` to one of the foods */
bool happening_ever(const struct judging *j, const struct caution_trigger *t,
                    const struct ingredient_set *foods);

#endif
