/* The cook's words: what is done, where food stands, how it is, who eats it, and what turns a
 * sentence round. Rows of a table; how a step is read by them is judge/clauses. */
#ifndef TABLES_COOKING_H
#define TABLES_COOKING_H

#include "base/list.h"
#include "base/map.h"
#include "base/reads.h"
#include "read/words.h"
#include "read/yaml_tree.h"
#include "tables/food_kinds.h"

enum cooking_kind {
    COOKING_ACTION,  /* a verb, in all its forms: opens a clause */
    COOKING_PLACE,   /* where food is: fridge, counter, pan */
    COOKING_STATE,   /* how it is: raw, sealed, pink */
    COOKING_WHO,     /* who eats it: babies */
    COOKING_TOOL,    /* what is acted on, but is no food: "heat the oven" */
    COOKING_DISH,    /* what was made of the list: "the sauce" */
    COOKING_TURN,    /* not, if, remark */
    COOKING_LEAD,    /* stands before a food: "a handful of" */
    COOKING_PROMISE, /* asked for by the name of the row alone: no sign in a step */
    COOKING_KINDS
};

enum { MEANINGS_MOST = 256 };

/* rows and the meanings they share, by number */
struct meanings {
    uint64_t bits[MEANINGS_MOST / 64];
};

struct cooking_row {
    const char *id;
    enum cooking_kind kind;
    struct meanings means; /* its own id and what its `means` names */
    const char **phrases;  /* NULL-terminated */
};

struct irregular_form {
    const char *verb, *form;
};

struct cooking_phrase {
    const char *const *parts; /* behind the first word, NULL-terminated; before all but the first
                                 is a gap of up to nine words */
    const struct cooking_phrase *next;
    uint32_t row;
    char second; /* what its second word begins with; NUL: there is none, or a gap before it */
};

struct cooking {
    struct entry entry;    /* "cooking": all of it */
    const char **meanings; /* names by number, NULL-terminated */
    size_t meaning_count;
    LIST_OF(struct cooking_row) rows;
    LIST_OF(struct irregular_form) irregular; /* leave, left */
    struct food_kinds kinds;
    struct map kind_words;      /* a word of a kind -> struct food_kind, the first that has it */
    struct meanings food_words; /* verbs that are foods too: butter, salt */
    struct meanings for_hours;  /* "until supper" */
    struct meanings for_weeks;  /* "all winter" */
    struct map firsts; /* first word of a phrase, in each of its forms -> struct cooking_phrase */
};

/* one of a row's phrases in a text */
struct sign {
    const struct cooking_row *row;
    bool gapped;        /* other words stand between its own */
    bool done;          /* an action that a clause does: "the boiling pot" boils nothing */
    uint32_t from, end; /* words */
};

struct signs {
    struct sign *items;
    size_t count, room;
};

/* takes one file in, entry by entry over what was there */
void cooking_load(struct arena *a, const struct yaml_node *root, struct notices *notices,
                  struct cooking *out);
/* lays the phrases in all their forms; call once, after the last layer */
void cooking_close(struct arena *a, struct cooking *c);
/* the names of all meanings, NULL-terminated; none where the table could not be read */
const char *const *cooking_meanings(const struct cooking *c);
/* the number of a meaning, or -1 */
int cooking_meaning(const struct cooking *c, struct slice name);
/* the phrases of a row, NULL-terminated; none where there is no such row */
const char *const *cooking_phrases(const struct cooking *c, const char *id);
/* all phrases in a text, in order; at each place the longest of each kind */
void cooking_read(struct arena *a, const struct cooking *c, const struct words *w,
                  struct signs *out);

static inline void
meanings_put(struct meanings *m, int number)
{
    m->bits[number / 64] |= UINT64_C(1) << (number % 64);
}

static inline void
meanings_join(struct meanings *m, const struct meanings *more)
{
    for (int i = 0; i < MEANINGS_MOST / 64; i++)
        m->bits[i] |= more->bits[i];
}

static inline bool
meanings_meet(const struct meanings *a, const struct meanings *b)
{
    uint64_t both = 0;
    for (int i = 0; i < MEANINGS_MOST / 64; i++)
        both |= a->bits[i] & b->bits[i];
    return both != 0;
}

#endif
