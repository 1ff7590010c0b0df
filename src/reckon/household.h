/* Amounts for the kitchens of a region: converted to its cups and spoons, rounded to what a cook
 * can measure, never so that a portion leaves its standing. */
#ifndef RECKON_HOUSEHOLD_H
#define RECKON_HOUSEHOLD_H

#include "reckon/portion.h"

/* the amount of a helping as a cook of `region` would write it: "1½ cups", "2 tbsp + 1 tsp", "170
 * g"; grams too where they are known: "about 95 g" */
struct household {
    struct slice measure; /* in cups, spoons, pieces; empty: only a weight makes sense */
    struct slice grams;   /* "170 g", "about 95 g", as bought, "500 mL" of what pours; empty when
                             not known */
    double grams_rounded; /* g that `measure` stands for, or `grams` where there is no measure; 0
                             when not known */
    bool by_volume;       /* `measure` is of cups and spoons of this region */
};

/* In its own region an amount stays as the cook wrote it. Elsewhere spoons stay spoons, pieces
 * pieces, weights weights (but cups in the United States); cups become g or mL where cooks weigh.
 * round_down: nothing is rounded above what was written. */
void household_write(struct arena *a, const struct helping *h, int region, int post_region,
                     const struct tables *t, bool round_down, struct reads *reads,
                     struct household *out);
/* a weight alone, in ounces too where scales are few */
void household_write_weight(struct arena *a, const struct helping *h, int region,
                            const struct tables *t, bool round_down, struct reads *reads,
                            struct household *out);

/* `factor` (0..1) of a helping in the measure that the cook wrote, rounded down to what a spoon
 * set, a scale or a knife can do. `words`: "2 tsp", "35 g" (of a tin: drained); `kept`: the part of
 * the helping that they stand for. False when that is less than can be measured. */
bool household_part(struct arena *a, const struct helping *h, double factor, int region,
                    const struct tables *t, struct reads *reads, struct slice *words, double *kept);

/* what a cook weighs out of a helping as bought: a tin is weighed drained, all else whole (1) */
double household_scale(const struct helping *h);

/* a volume in mL as the region's spoons and cups, to the nearest, or down; empty when it is too
 * little to measure */
struct slice household_volume(struct arena *a, double millilitres, int region,
                              const struct tables *t, bool round_down, struct reads *reads,
                              double *rounded_ml);

/* grams to what a scale shows: 1 g under 20, 5 g above (0.1 g under 2, to the nearest) */
double household_grams(double grams, bool round_down);

/* "95 g", "1.2 kg"; the units with a space before them */
void household_write_metric(struct text *t, double amount, const char *unit, const char *thousand);

#endif
