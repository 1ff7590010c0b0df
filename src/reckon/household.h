/* Amounts for the kitchens of a region: converted to its cups and spoons, rounded to what a cook
 * can measure, never so that a portion leaves its standing. */
#ifndef RECKON_HOUSEHOLD_H
#define RECKON_HOUSEHOLD_H

#include "reckon/portion.h"

/* the amount of a helping as a cook of `region` would write it: "1½ cups", "2 tbsp + 1 tsp", "170
 * g"; grams too where they are known: "about 95 g". `limit_grams`: > 0 never rounds above it */
struct household {
    struct slice measure; /* in cups, spoons, pieces; empty: only a weight makes sense */
    struct slice grams;   /* "170 g"; empty when not known */
    double grams_rounded; /* g that `measure` stands for */
};

void household_write(struct arena *a, const struct helping *h, int region, int post_region,
                     const struct tables *t, bool round_down, struct reads *reads,
                     struct household *out);

/* a volume in mL as the region's spoons and cups, to the nearest, or down */
struct slice household_volume(struct arena *a, double millilitres, int region,
                              const struct tables *t, bool round_down, struct reads *reads,
                              double *rounded_ml);

/* a number with vulgar fractions: 1½, ⅔, 2.25 -> 2¼ */
void household_fraction(struct text *t, double value);

#endif
