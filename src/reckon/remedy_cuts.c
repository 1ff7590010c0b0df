#include "reckon/remedy_cuts.h"

#include <math.h>
#include <string.h>

#include "reckon/household.h"
#include "reckon/remedy_words.h"

enum { SHRINKS_MOST = 8 };

/* a rounded amount that still is a little too much is tried again at this part of it */
static const double SHRINK = 0.85;

/* an ingredient that brings less than this part of what must go is not worth a cut */
static const double CAUSE_LEAST = 0.02;

static void
copy_helpings(const struct remedy_search *f, struct ingredient *in)
{
    const struct dish_option *options = in->options;
    in->options = arena_take_array(f->arena, in->option_count + 1, sizeof *in->options);
    for (size_t o = 0; o < in->option_count; o++) {
        const size_t count = options[o].count;
        in->options[o].count = count;
        in->options[o].helpings =
            arena_take_raw(f->arena, (count + 1) * sizeof *in->options[o].helpings);
        memcpy(in->options[o].helpings, options[o].helpings,
               count * sizeof *in->options[o].helpings);
    }
}

/* what one helping adds to an end of a column */
static double
helping_adds(const struct remedy_search *f, const struct helping_load *h, const struct excess *e)
{
    if (e->column == SITTING) {
        double limit = f->sheet.sitting_limit;
        return limit <= 0 ? 0
                          : (e->end == END_MID ? h->columns[SITTING].load.mid
                                               : h->columns[SITTING].load.high) /
                                limit;
    }
    const bool fresh =
        e->column == EXCESS_FRUCTOSE && f->stand->groups[EXCESS_FRUCTOSE].fresh_allowance;
    const struct span *share = fresh ? &h->fresh_share : &h->columns[e->column].share;
    const double bound = fresh ? h->fresh_bound : h->columns[e->column].bound;
    if (e->end == END_MID)
        return share->mid;
    return share->high + (e->end == END_UPPER && isfinite(bound) ? bound : 0);
}

/* what cutting an ingredient away would take off each end that must come down: its worst way's */
static void
ingredient_effects(const struct remedy_search *f, size_t ingredient, const struct excesses *e,
                   double *effects)
{
    const struct ingredient *in = &f->dish->ingredients[ingredient];
    const struct helping_load *h = f->sheet.rows[ingredient].loads;
    for (size_t o = 0; o < in->option_count; o++) {
        double sums[CUT_NEEDS_MOST] = {0};
        for (size_t k = 0; k < in->options[o].count; k++, h++)
            for (size_t n = 0; n < e->count; n++)
                if (column_touched(h->touched, e->items[n].column))
                    sums[n] += helping_adds(f, h, &e->items[n]);
        for (size_t n = 0; n < e->count; n++)
            effects[n] = sums[n] > effects[n] ? sums[n] : effects[n];
    }
}

void
remedy_effects(const struct remedy_search *f, struct excesses *e)
{
    unsigned columns = 0;
    e->effects = arena_take_array(f->arena, f->dish->count * e->count + 1, sizeof *e->effects);
    for (size_t n = 0; n < e->count; n++)
        columns |= 1u << e->items[n].column;
    for (size_t i = 0; i < f->dish->count; i++)
        if ((f->sheet.rows[i].touched & columns) != 0)
            ingredient_effects(f, i, e, &e->effects[i * e->count]);
}

static bool
helping_matters(const struct remedy_search *f, const struct helping_load *h,
                const struct excesses *e)
{
    for (size_t k = 0; k < e->count; k++)
        if (helping_adds(f, h, &e->items[k]) > 1e-9)
            return true;
    return false;
}

static void
scale_helping(struct helping *h, double kept)
{
    h->eaten = span_scale(h->eaten, kept);
    h->weighing.grams = span_scale(h->weighing.grams, kept);
    h->weighing.edible = span_scale(h->weighing.edible, kept);
}

/* scales what matters of an ingredient to `factor`, rounded down in the cook's measures; notes each
 * as a cut */
static void
cut_ingredient(struct remedy_search *f, struct dish *d, size_t ingredient, double factor,
               const struct excesses *e, struct cut *cuts, size_t *count)
{
    struct ingredient *in = &d->ingredients[ingredient];
    copy_helpings(f, in);
    for (size_t o = 0; o < in->option_count; o++)
        for (size_t k = 0; k < in->options[o].count; k++) {
            if (!helping_matters(f, sheet_load(&f->sheet, f->dish, ingredient, o, k), e))
                continue;
            struct helping *h = &in->options[o].helpings[k];
            struct cut *cut = &cuts[(*count)++];
            *cut = (struct cut){.ingredient = ingredient, .option = o, .helping = k};
            double kept = 0;
            if (!household_part(f->arena, h, factor, d->region, f->tables, f->reads, &cut->words,
                                &kept)) {
                kept = 0;
                cut->words = (struct slice){NULL, 0};
            }
            cut->grams = h->weighing.grams.mid * kept;
            scale_helping(h, kept);
        }
}

/* cuts the ingredients to their factors; what is rounded still too high is tried a little lower */
static bool
try_cuts(struct remedy_search *f, const size_t *ingredients, double *factors, size_t count,
         const struct excesses *e)
{
    for (int shrink = 0; shrink <= SHRINKS_MOST; shrink++) {
        struct dish d = remedy_copy_dish(f);
        struct cut *cuts = arena_take_array(f->arena, f->sheet.helping_count + 1, sizeof *cuts);
        size_t cut_count = 0;
        for (size_t k = 0; k < count; k++)
            cut_ingredient(f, &d, ingredients[k], shrink == SHRINKS_MOST ? 0 : factors[k], e, cuts,
                           &cut_count);
        enum standing after = remedy_stand_of(f, &d);
        if (after <= f->target) {
            struct remedy *r =
                remedy_add(f, count == 1 ? REMEDY_REDUCE : REMEDY_CUTS, cuts[0].grams, after);
            r->cuts = cuts;
            r->cut_count = cut_count;
            r->sentence =
                remedy_cuts_words(f->arena, f->dish, f->tables, f->reads, cuts, cut_count);
            return true;
        }
        for (size_t k = 0; k < count; k++)
            factors[k] *= SHRINK;
    }
    return false;
}

/* the part of an ingredient that may stay when it alone is cut; below 0: not even without it */
static double
factor_alone(size_t ingredient, const struct excesses *e)
{
    double factor = 1;
    for (size_t k = 0; k < e->count; k++) {
        const double effect = e->effects[ingredient * e->count + k];
        if (effect < e->items[k].need - 1e-9)
            return -1;
        factor = fmin(factor, 1 - e->items[k].need / effect);
    }
    return fmax(factor, 0);
}

/* the chief contributor down, or the ingredient of which least must go */
bool
remedy_reduce(struct remedy_search *f, const struct excesses *e)
{
    const size_t chief =
        f->stand->tightest < 0 ? SIZE_MAX : f->stand->groups[f->stand->tightest].chief;
    size_t best = SIZE_MAX;
    double best_factor = -1;
    for (size_t i = 0; i < f->dish->count; i++) {
        double factor = factor_alone(i, e);
        if (factor < 0)
            continue;
        if (i == chief || best == SIZE_MAX || (best != chief && factor > best_factor)) {
            best = i;
            best_factor = factor;
        }
    }
    return best != SIZE_MAX && try_cuts(f, &best, &best_factor, 1, e);
}

static double
ingredient_grams(const struct remedy_search *f, size_t ingredient)
{
    const struct ingredient *in = &f->dish->ingredients[ingredient];
    double grams = 0;
    for (size_t o = 0; o < in->option_count; o++) {
        double sum = 0;
        for (size_t k = 0; k < in->options[o].count; k++)
            sum += in->options[o].helpings[k].weighing.grams.mid;
        grams = fmax(grams, sum);
    }
    return fmax(grams, 0.01);
}

/* of how much of what must go an ingredient is the cause, at its best */
static double
ingredient_weight(const double *effects, const struct excesses *e)
{
    double most = 0;
    for (size_t k = 0; k < e->count; k++)
        if (effects[k] > 0) {
            const double part = effects[k] / e->items[k].need;
            most = part > most ? part : most;
        }
    return most;
}

/* the ingredients that are most the cause, weightiest first */
static size_t
weightiest(const struct remedy_search *f, const struct excesses *e, size_t out[CUT_THINGS_MOST])
{
    size_t count = 0;
    double weights[CUT_THINGS_MOST];
    for (size_t i = 0; i < f->dish->count; i++) {
        const double weight = ingredient_weight(&e->effects[i * e->count], e);
        if (weight < CAUSE_LEAST ||
            (count == CUT_THINGS_MOST && weight <= weights[CUT_THINGS_MOST - 1]))
            continue;
        size_t at = count < CUT_THINGS_MOST ? count++ : CUT_THINGS_MOST - 1;
        for (; at > 0 && weights[at - 1] < weight; at--) {
            weights[at] = weights[at - 1];
            out[at] = out[at - 1];
        }
        weights[at] = weight;
        out[at] = i;
    }
    return count;
}

bool
remedy_fewest_cuts(struct remedy_search *f, const struct excesses *e)
{
    size_t ingredients[CUT_THINGS_MOST], set[CUT_THINGS_MOST];
    struct cut_problem p;
    p.things = weightiest(f, e, ingredients);
    p.needs = e->count;
    for (size_t i = 0; i < p.things; i++) {
        p.weight[i] = ingredient_grams(f, ingredients[i]);
        for (size_t k = 0; k < e->count; k++)
            p.effect[i][k] = e->effects[ingredients[i] * e->count + k];
    }
    for (size_t k = 0; k < e->count; k++)
        p.need[k] = e->items[k].need;
    double cut[CUT_THINGS_MOST], factors[CUT_THINGS_MOST];
    if (!cuts_fewest(&p, cut))
        return false;
    size_t count = 0;
    for (size_t i = 0; i < p.things; i++)
        if (cut[i] > 1e-9) {
            set[count] = ingredients[i];
            factors[count++] = 1 - cut[i];
        }
    return count > 0 && try_cuts(f, set, factors, count, e);
}
