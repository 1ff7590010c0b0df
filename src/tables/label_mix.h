/* What a label lets 100 g of its food be made of. All amounts that keep to the label make a linear
 * program: what is in it adds up to the whole; each ingredient weighs at most as much as the one
 * before it (Regulation (EU) 1169/2011, article 18), but in the EU those under 2 % may stand in any
 * order at the end (annex VII, part A, 6), in the US behind words that say so (21 CFR 101.4(a)(2));
 * percentages hold (article 22, annex VIII); a bracket adds up to what stands before it; and what
 * the ingredients bring of sugars, fat and others is no more than is declared. All laws from
 * memory. The k-th ingredient is then at most 100/k of it, and less where others say so. */
#ifndef TABLES_LABEL_MIX_H
#define TABLES_LABEL_MIX_H

#include "base/linear_program.h"
#include "tables/label.h"

/* one program for each number of ingredients that are in order, the rest under 2 % */
struct mix {
    struct arena *scratch;
    const struct label *label;
    struct linear_program *programs;
    size_t count;
};

/* the ends of a weighted sum over all amounts that keep to the label */
struct ends {
    double least, most;
    double *at; /* grams of each ingredient where it is most */
};

/* lays out the programs, without what is declared of nutrients where it is to be left aside; they
 * live in the arena */
struct mix label_mix(struct arena *scratch, const struct label *label, bool nutrients);
/* `weights` has one for each ingredient. false: nothing keeps to the label */
bool label_mix_ends(const struct mix *m, const double *weights, struct ends *out);

#endif
