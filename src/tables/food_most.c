#include "tables/food_most.h"

#include <math.h>

#include "tables/food_kin.h"

static double
nutrient(const struct food *f, enum nutrient n, struct reads *reads)
{
    const struct figure *figure = food_nutrient(f, n, reads);
    return figure_known(figure) ? figure->span.high : NAN;
}

double
food_own_bound(const struct food *f, enum group g, struct reads *reads)
{
    double most = NAN;
    const bool milk = ((f->allergens | f->may_carry) >> ALLERGEN_MILK & 1) != 0;
    const double sugars = nutrient(f, SUGARS, reads), all = nutrient(f, CARBOHYDRATE, reads);
    if (g == LACTOSE && !milk)
        return 0;
    if (g == LACTOSE || g == EXCESS_FRUCTOSE)
        most = isnan(sugars) ? all : sugars;
    else if (!isnan(all))
        most = fmax(all - (isnan(sugars) ? 0 : food_nutrient(f, SUGARS, reads)->span.low), 0);
    const struct figure *bound = food_bound(f, g, reads);
    if (figure_known(bound))
        most = fmin(most, bound->span.high); /* fmin passes over NAN */
    if (group_sum(g) != g) {
        const struct figure *sum = food_content(f, group_sum(g), reads),
                            *over = food_bound(f, group_sum(g), reads);
        if (figure_known(sum))
            most = fmin(most, sum->span.high);
        if (figure_known(over))
            most = fmin(most, over->span.high);
    }
    return most;
}

/* By its own figure; what was looked for and not found is there at the most alone. A bound beside
 * it says what more there may be. */
static struct holding
figure_holds(const struct food *f, enum group g)
{
    const struct figure *figure = &f->contents[g], *bound = &f->bounds[g];
    const double most = figure->span.high;
    struct holding out = {{0, 0, 0}, figure_known(bound) ? fmax(most, bound->span.high) : most};
    if (figure->kind != FIGURE_BELOW)
        out.known = figure->span;
    return out;
}

/* of a group that is no sum */
static struct holding
part_holds(const struct larder *l, const struct food *f, enum group g)
{
    struct holding out = {{0, 0, 0}, 100};
    if (figure_known(&f->contents[g]))
        return figure_holds(f, g);
    const double own = food_own_bound(f, g, NULL);
    const struct kin *kin = food_kin(l, f, g, NULL);
    if (!isnan(own))
        out.most = fmin(out.most, own);
    if (kin != NULL)
        out.most = fmin(out.most, kin->bound);
    return out;
}

struct holding
food_holds(const struct larder *l, const struct food *f, enum group g)
{
    const struct figure *own = &f->contents[g], *bound = &f->bounds[g];
    struct holding sum = {{0, 0, 0}, 0};
    if (!groups_is_sum(g))
        return part_holds(l, f, g);
    for (enum group part = 0; part < GROUPS; part++)
        if (groups_is_part(part, g)) {
            const struct holding one = part_holds(l, f, part);
            sum.known = span_add(sum.known, one.known);
            sum.most += one.most;
        }
    if (figure_known(own) && own->span.mid >= sum.known.mid)
        return figure_holds(f, g);
    if (figure_known(own))
        sum.most = fmin(sum.most, fmax(own->span.high, sum.known.high));
    if (figure_known(bound))
        sum.most = fmin(sum.most, fmax(bound->span.high, sum.known.high));
    sum.most = fmin(sum.most, 100);
    return sum;
}
