/* The smallest changes that make a portion stand `within`, in the cook's own measures, rounded to
 * the safe side and reckoned again after rounding. */
#ifndef RECKON_REMEDY_H
#define RECKON_REMEDY_H

#include "reckon/choices.h"

enum remedy_kind {
    REMEDY_PORTION,     /* a smaller portion: `amount` in the yield's things */
    REMEDY_PORTIONS,    /* more portions: `amount` of them */
    REMEDY_REDUCE,      /* the chief contributor down to `amount` of `unit` */
    REMEDY_DROP,        /* leave the optional ingredient out */
    REMEDY_ALTERNATIVE, /* take option `option` */
    REMEDY_CUTS         /* several changes together: see `cuts` */
};

struct cut {
    size_t ingredient, option, helping; /* option SIZE_MAX: the ingredient is left out */
    bool settles;                       /* takes the option, or leaves out, and cuts no amount */
    double grams;                       /* g as bought, what is left; 0: leave it out */
    struct slice words; /* "2 tsp", "35 g", "1" : in the post's measures; empty: leave it out */
};

struct remedy {
    enum remedy_kind kind;
    double amount;
    struct cut *cuts; /* REDUCE: one ingredient's (each of its alternatives that carries it); CUTS:
                         of two ingredients or more, those that settle first; DROP, ALTERNATIVE: one
                         for each choice that is settled, with its ingredient */
    size_t cut_count;
    struct slice
        sentence;        /* whole, for writer and reader: "Use 2 tsp of honey instead of 2 tbsp." */
    struct slice told;   /* the same at home, a drastic one said to be one; empty: not yet told */
    enum standing after; /* standing when it is applied and reckoned again */
    bool drastic;        /* hardly the same dish */
};

/* Each was applied to a copy of the dish and reckoned again. All bring the portion `within`; where
 * nothing does, to `close`, and the sentence says so. */
struct remedies {
    struct remedy *items; /* best first; empty when the portion stands within, or nothing helps;
                             drastic ones only where nothing else does */
    size_t count;
};

/* stand and choices are of the phase */
void remedies_find(struct arena *a, const struct dish *d, const struct tables *t,
                   struct reads *reads, int phase, const struct phase_stand *stand,
                   const struct choices *choices, struct remedies *out);

#endif
