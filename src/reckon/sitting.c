#include "reckon/sitting.h"

/* the ingredient with all its amounts `part` times as large */
static struct ingredient
scaled(struct arena *a, const struct ingredient *in, double part)
{
    struct ingredient out = *in;
    out.options = arena_take_array(a, in->option_count + 1, sizeof *out.options);
    for (size_t o = 0; o < in->option_count; o++) {
        const struct dish_option *from = &in->options[o];
        struct dish_option *to = &out.options[o];
        to->count = from->count;
        to->helpings = arena_take_array(a, from->count + 1, sizeof *to->helpings);
        for (size_t h = 0; h < from->count; h++) {
            to->helpings[h] = from->helpings[h];
            to->helpings[h].eaten = span_scale(from->helpings[h].eaten, part);
            to->helpings[h].weighing.edible = span_scale(from->helpings[h].weighing.edible, part);
        }
    }
    return out;
}

void
sitting_join(struct arena *a, const struct sitting_part *parts, size_t count, struct sitting *out)
{
    size_t ingredients = 0;
    for (size_t i = 0; i < count; i++)
        ingredients += parts[i].dish->count;
    *out = (struct sitting){.dish = {.portions = {1, 1, 1}, .portions_known = true}};
    out->dish.ingredients = arena_take_array(a, ingredients + 1, sizeof *out->dish.ingredients);
    out->parts = arena_take_array(a, ingredients + 1, sizeof *out->parts);
    for (size_t i = 0; i < count; i++) {
        const struct dish *d = parts[i].dish;
        for (size_t k = 0; k < d->count; k++) {
            out->parts[out->dish.count] = i;
            out->dish.ingredients[out->dish.count++] =
                scaled(a, &d->ingredients[k], parts[i].portions / dish_divisor(d));
        }
        out->dish.region = i == 0 ? d->region : out->dish.region;
    }
}
