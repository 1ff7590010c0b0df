/* Nutrition of one portion, with how much of its weight has figures. The first way written of each
 * ingredient counts; optional ones count as written. */
#ifndef RECKON_NUTRITION_H
#define RECKON_NUTRITION_H

#include "reckon/dish.h"

struct nutrition {
    bool given;      /* coverage is enough: 95 % of the edible weight in each nutrient shown */
    double coverage; /* 0..1 of the edible weight */
    bool known[NUTRIENTS];
    double amount[NUTRIENTS];      /* one portion: kcal, g, mg sodium; not rounded */
    double energy_kj, energy_kcal; /* by the factors of Regulation (EU) 1169/2011 Annex XIV */
    double salt;                   /* g: sodium x 2.5 */
    double portion_grams;
    size_t *missing; /* ingredients without figures */
    size_t missing_count;
};

void nutrition_reckon(struct arena *a, const struct dish *d, struct reads *reads,
                      struct nutrition *out);

/* a nutrient rounded for a label: "us" by 21 CFR 101.9(c), "eu" by the Commission's guidance of
 * December 2012 on tolerances; writes the number ("0.5", "<0.5", "120") */
void nutrition_write(struct text *t, const char *manner, enum nutrient n, double amount);

#endif
