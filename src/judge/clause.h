/* One clause of a method: an action, with what it acts on. judge/clauses.h reads them. */
#ifndef JUDGE_CLAUSE_H
#define JUDGE_CLAUSE_H

#include "judge/passages.h"
#include "tables/cooking.h"

enum { ACTED_ON_MOST = 192 }; /* ingredients of a list that clauses tell apart */

struct ingredient_set {
    uint64_t bits[ACTED_ON_MOST / 64];
};

enum acted_on {
    ACTS_ON_NAMED,   /* ingredients by name */
    ACTS_ON_IT,      /* "it", or nothing said: what the clause before acted on */
    ACTS_ON_DISH,    /* "the sauce": all that went before */
    ACTS_ON_NOTHING, /* a tool: "heat the oven" */
};

struct clause {
    struct passage *passage;
    size_t from, end; /* words of the passage */
    size_t verb;      /* the word that opens it; SIZE_MAX: there is none */
    const struct sign *first_sign;
    size_t sign_count;
    struct meanings means; /* of all its signs */
    enum acted_on on;
    struct ingredient_set named; /* in it, in any part */
    size_t object;               /* the one ingredient right behind the verb, or what "it" is of
                                    such; SIZE_MAX: none, or more than one */
    struct ingredient_set acted; /* on: what is named, or what "it" is */
    struct ingredient_set wide;  /* the same, but all that went before where nothing is named */
    bool negated, conditional, remark;
};

static inline void
ingredient_set_put(struct ingredient_set *s, size_t i)
{
    if (i < ACTED_ON_MOST)
        s->bits[i / 64] |= UINT64_C(1) << (i % 64);
}

static inline bool
ingredient_set_has(const struct ingredient_set *s, size_t i)
{
    return i < ACTED_ON_MOST && (s->bits[i / 64] >> (i % 64) & 1) != 0;
}

static inline bool
ingredient_sets_meet(const struct ingredient_set *a, const struct ingredient_set *b)
{
    uint64_t both = 0;
    for (int i = 0; i < ACTED_ON_MOST / 64; i++)
        both |= a->bits[i] & b->bits[i];
    return both != 0;
}

static inline void
ingredient_set_join(struct ingredient_set *s, const struct ingredient_set *more)
{
    for (int i = 0; i < ACTED_ON_MOST / 64; i++)
        s->bits[i] |= more->bits[i];
}

#endif
