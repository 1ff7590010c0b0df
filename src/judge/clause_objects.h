/* What a clause acts on: the ingredients that it names, what "it" is, all of the dish. */
#ifndef JUDGE_CLAUSE_OBJECTS_H
#define JUDGE_CLAUSE_OBJECTS_H

#include "judge/clause.h"
#include "judge/names.h"

/* what was told so far, in the order of the method */
struct told {
    struct ingredient_set all;    /* of the list */
    struct ingredient_set so_far; /* named in any clause before */
    struct ingredient_set it;     /* what "it" is */
    size_t object;                /* of the clause before; SIZE_MAX: none */
    enum passage_kind kind;
    const struct cooking *cooking;
    struct meanings acts, jar; /* the meanings that act on all where nothing was named yet */
    struct meanings pot;       /* what goes on in a pot of water that waits for food */
    struct meanings heat, wet, dry, liquid, vessel; /* the meanings */
    struct meanings places, holds; /* meanings of where food stands, and of leaving it there */
    struct meanings closes;        /* done to a vessel, it is done to what is in it */
    struct meanings where;         /* the clause before left it there */
};

void clause_objects_begin(const struct dish *d, const struct cooking *c, struct told *told);
/* fills in what a clause acts on; clauses come in order. named: the ingredients by name in its
 * passage. */
void clause_objects_read(const struct names *names, const struct named_list *named,
                         struct clause *c, struct told *told);

#endif
