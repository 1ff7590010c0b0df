/* What a food made of several holds, where nobody measured it: reckoned from a usual recipe that
 * its row states, by the contents of what goes into it. */
#ifndef TABLES_FOOD_RECIPE_H
#define TABLES_FOOD_RECIPE_H

#include "tables/food_page.h"

struct recipe_part {
    const char *id; /* of a food */
    double grams;
};

struct usual_recipe {
    struct recipe_part *parts;
    size_t count;
    double makes; /* grams, after what water is lost or taken up */
};

/* reads {of: {chilli: 85, vinegar: 8}, makes: 90}; the sum of its parts where it does not say what
 * it makes */
void food_recipe_take(struct page *page, const struct yaml_node *map, struct food *f);
/* gives the foods of a larder that is whole what they lack, group by group; a group that a part
 * lacks stays unknown */
void food_recipe_settle(struct larder *l);

#endif
