/* The rows of serves.yaml brought to their foods and to grams, once all tables are read. */
#ifndef TABLES_SERVE_SETTLE_H
#define TABLES_SERVE_SETTLE_H

#include "tables/limits.h"
#include "tables/measures.h"
#include "tables/serves.h"

/* the most that a serve of a food may be; of one food there may be several, by form and phase */
struct given_serve {
    const struct form *form; /* NULL: of all forms of the entry */
    int phase;               /* -1: of all phases */
    bool no_limit;
    struct figure grams; /* edible g; its source is whose serve it is */
    const struct given_serve *next;
};

/* what rows are settled by; the larder's foods are written to */
struct serves_asked {
    const struct serves *serves;
    const struct larder *larder;
    const struct word_lists *words;
    const struct limits *limits;
    const struct measures *measures;
    int region; /* whose spoons and cups */
};

/* settles all rows onto their foods, which then know them; says of each row what is wrong in it.
 * `told` takes the notices of one row with the path of its file. */
void serves_settle(struct arena *a, const struct serves_asked *asked,
                   void (*told)(void *ctx, const char *path, struct notices *notices), void *ctx);
/* sets one serve for a food in a phase in the place of all others, as if a table had it */
void serve_set(struct arena *a, struct food *f, int phase, double grams, const char *source);
/* what may be of a food in a form and a phase, or NULL: its composition holds. Noted. */
const struct given_serve *serves_of_food(const struct food *f, const struct form *form, int phase,
                                         struct reads *reads);

#endif
