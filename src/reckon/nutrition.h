/* Nutrition of one portion, with how much of its weight has figures. The first way written of each
 * ingredient counts; optional ones count as written. */
#ifndef RECKON_NUTRITION_H
#define RECKON_NUTRITION_H

#include "reckon/dish.h"

struct nutrition {
    bool given;      /* protein, fat, carbohydrate and fibre have figures for 95 % of the edible
                        weight, and every amount that is written could be weighed */
    double coverage; /* 0..1 of the edible weight has all four */
    bool known[NUTRIENTS];    /* figures for 95 % of the edible weight */
    double amount[NUTRIENTS]; /* one portion: kcal, g, mg sodium; not rounded. Carbohydrate as the
                                 tables have it: by difference, fibre included */
    double available_carbohydrate; /* g: carbohydrate - fibre, as Regulation 1169/2011 counts it */
    double energy_kj, energy_kcal; /* by the factors of Regulation (EU) 1169/2011 Annex XIV */
    double salt;                   /* g: sodium x 2.5 */
    double portion_grams;
    size_t *missing; /* ingredients without figures, or left out of the sum for want of an amount */
    size_t missing_count;
};

void nutrition_reckon(struct arena *a, const struct dish *d, struct reads *reads,
                      struct nutrition *out);

/* a nutrient rounded for a label: "us" by 21 CFR 101.9(c), "eu" by the Commission's guidance of
 * December 2012 on tolerances; writes the number ("0.5", "<0.5", "120") */
void nutrition_write(struct text *t, const char *manner, enum nutrient n, double amount);
/* the same for salt in g (EU) */
void nutrition_write_salt(struct text *t, double grams);

#endif
