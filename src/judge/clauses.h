/* What happens in a method: each step, note and sentence of the prose read once into clauses, an
 * action with what it acts on, where that then stands, how long, how hot; whether it is not done,
 * done on a condition, or only told. Rules ask these, not strings. What a step does not say is not
 * guessed. */
#ifndef JUDGE_CLAUSES_H
#define JUDGE_CLAUSES_H

#include "judge/clause.h"
#include "judge/judging.h"
#include "judge/names.h"
#include "judge/passages.h"
#include "tables/cooking.h"

struct clauses {
    struct clause *items;
    size_t count, room;
    const struct dish *dish;
    struct passages passages; /* laid out whole */
    struct meanings means;    /* of all clauses: what none of them says can be passed over */
    struct named_list *named; /* of each passage: ingredients by name */
};

/* reads all passages of a post; its `clauses` are not looked at. The words of the table are noted.
 */
void clauses_read(const struct judging *j, struct clauses *out);
/* whether a byte of the passage's text stands in it */
bool clauses_hold(const struct clause *c, size_t byte);

#endif
