/* The table of swaps: what may stand for what in a dish, in which ratio, for which work. */
#ifndef TABLES_SWAPS_H
#define TABLES_SWAPS_H

#include "base/list.h"
#include "tables/figure.h"

struct larder;

struct swap {
    const char *id;
    const char **of;       /* ids of the foods that it may stand for; NULL-terminated */
    const char *use;       /* id of the food that takes their place */
    double ratio;          /* edible g of it for one of theirs */
    double up_to;          /* g of the food in one portion up to which it does its work; 0: any */
    const char **not_with; /* ids of foods beside which it does not; NULL-terminated */
    const char *work;      /* "savour" */
    const char *loses;     /* "body and sweetness; stir it in towards the end" */
    const char *also; /* what else the cook changes: "take as much off the other oil"; or NULL */
    struct figure ground; /* its source and basis alone */
    struct entry entry;   /* "swap:onion-green-tops" */
    const char *path;     /* where it stands, for what is said of it */
    struct place place;
};

struct swaps {
    struct swap *items; /* in the order in which they are tried */
    size_t count, room;
    const char **garnish;       /* words of a line that may be left out: "to serve"; NULL: none */
    struct entry garnish_entry; /* "swap-garnish" */
};

/* takes in one layer of the table, over those before it, row by row */
void swaps_load(struct arena *a, const char *path, const struct yaml_node *root,
                struct notices *notices, struct swaps *out);
/* says of the row which of its foods the larder does not have; false when it has them all */
bool swaps_lack(const struct swap *s, const struct larder *l, struct notices *notices);

/* the words of a line that a dish can be without, NULL-terminated; noted */
const char *const *swaps_garnish(const struct swaps *s, struct reads *reads);
/* the next swap for a food behind `after` (NULL: the first), or NULL. The question is noted. */
const struct swap *swaps_next(const struct swaps *s, const char *food, const struct swap *after,
                              struct reads *reads);
/* the digest of a row ("swap:onion-green-tops"), or of all swaps for a food ("swaps:onion"); 0:
 * there are none */
uint64_t swaps_ask(const struct swaps *s, struct slice key);

#endif
