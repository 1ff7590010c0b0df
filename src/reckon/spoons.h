/* A volume as the spoons and cups of a region: which of them, how often, and how it is written. */
#ifndef RECKON_SPOONS_H
#define RECKON_SPOONS_H

#include "tables/measures.h"

enum spoons_keep {
    KEEP_ANY,    /* spoons or cups, whatever fits */
    KEEP_SPOONS, /* spoons alone, as the cook wrote it */
    KEEP_CUPS,   /* cups or spoons, one measure alone: what lies too loose for two */
    KEEP_LITRES  /* spoons for little, else millilitres: regions that weigh and pour */
};

struct spoonful {
    double value;
    const struct unit *unit; /* NULL: millilitres */
};

/* one measure, or two that add up ("2 tbsp + 1 tsp") */
struct spoons {
    struct spoonful items[2];
    size_t count;
    double millilitres; /* what they hold */
};

/* the spoons and cups nearest to `millilitres`, or nearest below it; false when it is less than the
 * least that can be measured */
bool spoons_fit(const struct measures *m, int region, double millilitres, enum spoons_keep keep,
                bool round_down, struct reads *reads, struct spoons *out);

void spoons_write(struct text *t, const struct spoons *s);

/* whether a region's cooks weigh or pour what others measure by the cup */
bool spoons_weighing_region(const struct measures *m, int region);

#endif
