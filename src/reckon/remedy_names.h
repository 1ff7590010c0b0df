/* What a remedy calls the foods of a dish, in the words of a region's cooks. */
#ifndef RECKON_REMEDY_NAMES_H
#define RECKON_REMEDY_NAMES_H

#include "reckon/dish.h"

/* whose words and measures are used */
struct kitchen {
    const struct dish *dish;
    const struct tables *tables;
    int region;
    struct reads *reads;
};

/* "onion"; "onion (the second listed)" where several lines have the same food */
void remedy_food_name(struct text *text, const struct kitchen *k, const struct ingredient *in,
                      const struct helping *h);
/* "salt and pepper" */
void remedy_option_name(struct text *text, const struct kitchen *k, const struct ingredient *in,
                        size_t o);

#endif
