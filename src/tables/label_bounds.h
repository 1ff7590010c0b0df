/* What a label lets 100 g of its food hold of each group, at the least and at the most. */
#ifndef TABLES_LABEL_BOUNDS_H
#define TABLES_LABEL_BOUNDS_H

#include "tables/label_work.h"

/* Sets contents and bounds of the food, and how much of each ingredient there can be; call when the
 * ingredients are looked up and the allergens known. All amounts that keep to the label make a
 * linear program: what is in it adds up to the whole; each ingredient weighs at most as much as the
 * one before it (Regulation (EU) 1169/2011, article 18), but in the EU those under 2 % may stand in
 * any order at the end (annex VII, part A, 6), in the US behind words that say so (21 CFR
 * 101.4(a)(2)); percentages hold (article 22, annex VIII); a bracket adds up to what stands before
 * it; and what the ingredients bring of sugars, fat and others is no more than is declared. All
 * laws from memory. The k-th ingredient is then at most 100/k of it, and less where others say so.
 */
void label_bounds_settle(const struct label_work *w);

#endif
