#include "reckon/composition.h"

#include <math.h>
#include <string.h>

#include "tables/food_kin.h"
#include "tables/food_most.h"

/* g in 100 g of anything */
static const double WHOLE = 100;

const char *
evidence_words(enum evidence e)
{
    static const char *const words[] = {
        [EVIDENCE_FIGURE] = "by its figure",
        [EVIDENCE_OWN] = "no figure; bounded by its own other figures",
        [EVIDENCE_KIN] = "no figure; estimated from its kin",
        [EVIDENCE_ABSENT] = "no figure, and nothing to estimate it by",
    };
    return words[e];
}

struct widths
widths_of(const struct distribution *d, double mid)
{
    return (struct widths){fmax(mid - distribution_quantile(d, 0.05), 0),
                           fmax(distribution_quantile(d, 0.95) - mid, 0)};
}

struct widths
widths_beside(struct widths a, struct widths b)
{
    return (struct widths){hypot(a.below, b.below), hypot(a.above, b.above)};
}

struct moments
moments_of(const struct distribution *d)
{
    return (struct moments){distribution_mean(d), distribution_variance(d)};
}

struct moments
moments_add(struct moments a, struct moments b)
{
    return (struct moments){a.mean + b.mean, a.variance + b.variance};
}

struct moments
moments_times(struct moments a, struct moments b)
{
    return (struct moments){a.mean * b.mean, a.variance * b.variance +
                                                 a.variance * b.mean * b.mean +
                                                 b.variance * a.mean * a.mean};
}

static struct distribution
spread_of(const struct figure *f)
{
    switch (f->kind) {
    case FIGURE_SAMPLES:
        return distribution_samples(f->mean, f->sd);
    case FIGURE_BELOW:
        return distribution_below(f->span.high);
    case FIGURE_NONE:
        return distribution_exact(0);
    default:
        return distribution_range(f->span.low, f->span.mid, f->span.high);
    }
}

/* takes a figure over: middle, spread and what it rests on */
static void
take_figure(const struct figure *f, struct content *out)
{
    *out = (struct content){.figure = f, .mid = f->span.mid};
    if (f->basis == BASIS_MEMORY || f->basis == BASIS_PRACTICE)
        out->memory = out->mid;
    if (f->span.high <= 0)
        return;
    out->spread = spread_of(f);
    out->top = out->spread.points[DISTRIBUTION_POINTS - 1];
    out->known = moments_of(&out->spread);
    out->widths = widths_of(&out->spread, out->mid);
}

/* what an absent content may be: as its kin, or anything up to the bound */
static void
set_estimate(struct content *c)
{
    const double z95 = 1.6448536269514722;
    const double wide = c->evidence == EVIDENCE_KIN ? exp(z95 * c->kin->sigma) : 1;
    c->estimate =
        c->evidence == EVIDENCE_KIN
            ? distribution_range(c->kin->median / wide, c->kin->median, c->kin->median * wide)
            : distribution_below(c->bound);
    c->absent = moments_of(&c->estimate);
    c->open = fmax(c->bound, c->estimate.points[DISTRIBUTION_POINTS - 1]);
}

/* bounds are rounded up to three digits */
static const double ROUNDED = 0.01;

/* whether it is the published bound that holds */
static void
note_over(const struct figure *over, struct content *out)
{
    if (figure_known(over) && over->span.high <= out->bound * (1 + ROUNDED))
        out->over = over;
}

static void
bound_absent(const struct food *f, enum group g, const struct tables *t, struct reads *reads,
             struct content *out)
{
    const double own = food_own_bound(f, g, reads);
    out->kin = food_kin(t->larder, f, g, reads);
    out->evidence = EVIDENCE_ABSENT;
    out->bound = WHOLE;
    if (!isnan(own)) {
        out->evidence = EVIDENCE_OWN;
        out->bound = fmin(own, WHOLE);
    }
    if (out->kin != NULL && out->kin->bound < out->bound) {
        out->evidence = EVIDENCE_KIN;
        out->bound = out->kin->bound;
    }
    note_over(food_bound(f, g, reads), out);
    set_estimate(out);
}

/* a bound beside a figure: the figure is the least, and what lies between them is open */
static void
open_above(const struct food *f, enum group g, struct reads *reads, struct content *out)
{
    const struct figure *over = food_bound(f, g, reads);
    if (!figure_known(over) || over->span.high <= out->figure->span.high)
        return;
    out->evidence = EVIDENCE_OWN;
    out->bound = over->span.high - out->figure->span.high;
    out->over = over;
    set_estimate(out);
}

static void
reckon_content(const struct food *f, enum group g, const struct tables *t, struct reads *reads,
               struct content *out)
{
    const struct figure *figure = f == NULL ? NULL : food_content(f, g, reads);
    if (figure != NULL && figure_known(figure)) {
        take_figure(figure, out);
        open_above(f, g, reads, out);
    } else if (f != NULL) {
        bound_absent(f, g, t, reads, out);
    } else {
        out->evidence = EVIDENCE_ABSENT;
        out->bound = WHOLE;
        set_estimate(out);
    }
}

/* adds a part to the sum, but for its shape */
static void
add_part(struct content *sum, const struct content *part)
{
    sum->evidence = part->evidence > sum->evidence ? part->evidence : sum->evidence;
    sum->mid += part->mid;
    sum->memory += part->memory;
    sum->widths = widths_beside(sum->widths, part->widths);
    sum->top += part->top;
    sum->bound += part->bound;
    sum->open += part->open;
    sum->known = moments_add(sum->known, part->known);
    sum->absent = moments_add(sum->absent, part->absent);
}

/* a sum is never less than the food's own figure for it, nor than its parts */
static void
reckon_sum(const struct food *f, enum group sum, struct reads *reads, struct composition *c)
{
    const struct figure *own = f == NULL ? NULL : food_content(f, sum, reads);
    struct content *out = &c->groups[sum];
    for (enum group g = 0; g < GROUPS; g++)
        if (groups_is_part(g, sum))
            add_part(out, &c->groups[g]);
    if (own != NULL && figure_known(own) && own->span.mid >= out->mid) {
        take_figure(own, out);
        open_above(f, sum, reads, out);
        return;
    }
    if (out->bound <= 0)
        return;
    const struct figure *over = f == NULL ? NULL : food_bound(f, sum, reads);
    if (over != NULL && figure_known(over))
        out->bound = fmin(out->bound, fmax(over->span.high - out->mid, 0));
    if (own != NULL && figure_known(own))
        out->bound = fmin(out->bound, fmax(own->span.high - out->mid, 0));
    out->bound = fmin(out->bound, WHOLE);
}

/* whether a group's shape is made from its parts' */
static bool
is_summed(const struct composition *c, enum group g)
{
    return groups_is_sum(g) && c->groups[g].figure == NULL;
}

struct distribution
composition_spread(const struct composition *c, enum group g)
{
    struct distribution sum = distribution_exact(0);
    if (!is_summed(c, g))
        return c->groups[g].spread;
    for (enum group part = 0; part < GROUPS; part++)
        if (groups_is_part(part, g))
            sum = distribution_sum(&sum, &c->groups[part].spread);
    return sum;
}

struct distribution
composition_estimate(const struct composition *c, enum group g)
{
    struct distribution sum = distribution_exact(0);
    if (!is_summed(c, g))
        return c->groups[g].estimate;
    for (enum group part = 0; part < GROUPS; part++)
        if (groups_is_part(part, g))
            sum = distribution_sum(&sum, &c->groups[part].estimate);
    return sum;
}

void
composition_reckon(const struct food *food, const struct tables *t, struct reads *reads,
                   struct composition *out)
{
    memset(out, 0, sizeof *out);
    for (enum group g = 0; g < GROUPS; g++)
        if (!groups_is_sum(g))
            reckon_content(food, g, t, reads, &out->groups[g]);
    for (enum group g = 0; g < GROUPS; g++)
        if (groups_is_sum(g))
            reckon_sum(food, g, reads, out);
    for (enum group g = 0; g < GROUPS; g++) {
        const struct content *c = &out->groups[g];
        if (c->top > 0)
            out->known |= 1u << g;
        if (c->bound > 0)
            out->open |= 1u << g;
    }
}
