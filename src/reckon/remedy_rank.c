#include "reckon/remedy_rank.h"

static const double portions_most = 3, part_least = 0.25, garnish_most = 0.1;

enum { CUTS_MOST = 4 };

static double
dish_grams(const struct dish *d)
{
    double grams = 0;
    for (size_t i = 0; i < d->count; i++) {
        const struct ingredient *in = &d->ingredients[i];
        for (size_t k = 0; in->option_count > 0 && k < in->options[0].count; k++)
            grams += in->options[0].helpings[k].weighing.grams.mid;
    }
    return grams;
}

/* a choice that is settled is not missed, unless nothing in its place is a good part of the dish */
static bool
settling_misses(const struct dish *d, const struct cut *cut)
{
    const struct ingredient *in = &d->ingredients[cut->ingredient];
    double grams = 0;
    if (cut->option != SIZE_MAX || in->optional)
        return false;
    for (size_t k = 0; in->option_count > 0 && k < in->options[0].count; k++)
        grams += in->options[0].helpings[k].weighing.grams.mid;
    return grams > garnish_most * dish_grams(d);
}

/* whether so little is left of an ingredient that it is missed */
bool
remedy_misses(const struct dish *d, const struct cut *cut)
{
    if (cut->settles)
        return settling_misses(d, cut);
    const struct helping *h =
        &d->ingredients[cut->ingredient].options[cut->option].helpings[cut->helping];
    const double grams = h->weighing.grams.mid;
    if (cut->grams >= part_least * grams)
        return false;
    return cut->grams > 0 || grams > garnish_most * dish_grams(d);
}

bool
remedy_is_drastic(const struct dish *d, const struct remedy *r)
{
    switch (r->kind) {
    case REMEDY_PORTIONS:
        return r->amount > portions_most * dish_divisor(d);
    case REMEDY_PORTION:
        return r->amount * portions_most < d->portion.high;
    case REMEDY_REDUCE:
    case REMEDY_CUTS:
        for (size_t k = 0; k < r->cut_count; k++)
            if (remedy_misses(d, &r->cuts[k]))
                return true;
        return r->cut_count > CUTS_MOST;
    case REMEDY_DROP:
    case REMEDY_ALTERNATIVE:
        break;
    }
    return false;
}

static int
rank_of(const struct remedy *r)
{
    static const int ranks[] = {
        [REMEDY_DROP] = 0,    [REMEDY_ALTERNATIVE] = 0, [REMEDY_REDUCE] = 1,
        [REMEDY_PORTION] = 2, [REMEDY_PORTIONS] = 2,    [REMEDY_CUTS] = 3,
    };
    if (r->drastic && (r->kind == REMEDY_PORTION || r->kind == REMEDY_PORTIONS))
        return 20;
    return ranks[r->kind] + (r->drastic ? 10 : 0);
}

size_t
remedies_rank(const struct dish *d, struct remedy *items, size_t count)
{
    size_t kept = 0;
    for (size_t i = 0; i < count; i++)
        items[i].drastic = remedy_is_drastic(d, &items[i]);
    for (size_t i = 1; i < count; i++) {
        struct remedy one = items[i];
        size_t at = i;
        for (; at > 0 && rank_of(&one) < rank_of(&items[at - 1]); at--)
            items[at] = items[at - 1];
        items[at] = one;
    }
    while (kept < count && !items[kept].drastic)
        kept++;
    return kept > 0 ? kept : count;
}
