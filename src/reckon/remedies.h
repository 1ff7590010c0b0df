/* What a remedy is made of; reckon/remedy.h looks for them. */
#ifndef RECKON_REMEDIES_H
#define RECKON_REMEDIES_H

#include "reckon/portion.h"

enum change_kind {
    CHANGE_OPTION, /* take one of the options of a line */
    CHANGE_LEAVE,  /* leave a line out */
    CHANGE_SWAP,   /* another food, in all lines that have the one it stands for */
    CHANGE_CUT,    /* less of a line */
    CHANGE_PORTION /* a smaller portion */
};

struct change {
    enum change_kind kind;
    size_t ingredient, option, helping; /* OPTION: the first two; CUT: all; LEAVE: the first */
    double kept;                        /* CUT: part of the helping */
    struct slice words;                 /* CUT: what is left, in the post's measures: "2 tsp" */
    const struct swap *swap;
    const struct food *use; /* SWAP: the food that is taken */
    double amount;          /* PORTION: in the yield's kind; without a yield, portions in all */
};

enum { CHANGES_MOST = 3, REMEDIES_MOST = 2, REFUSED_MOST = 3 };

struct remedy { /* all its changes together */
    struct change changes[CHANGES_MOST];
    size_t count;
    const struct lack *open; /* what nobody knows still leaves the portion `unknown`; or NULL */
    struct slice sentence; /* in the post's own measures: "Use 2 tsp of honey instead of 2 tbsp." */
};

/* a food that no change of these brings within */
struct refused {
    const struct load *load;
    double most; /* edible g of it that a portion may hold by itself; 0: none, or not known */
};

struct remedies {
    /* each brings every variant within, the first to be tried first; where a figure is missing that
     * no change can do without, none over */
    struct remedy items[REMEDIES_MOST];
    size_t count;
    bool sought; /* the portion is not within, and says how many it makes */
    struct refused refused[REFUSED_MOST]; /* where nothing helps: what is the matter */
    size_t refused_count;
    bool together;        /* each of them would do; it is all together that is too much */
    struct slice refusal; /* that said in a sentence, in the post's own words; or empty */
};

struct remedy_asked {
    const struct sheet *sheet;
    int phase;
    const struct phase_stand *stand; /* in that phase */
    const struct words *title;       /* of the dish */
};

#endif
