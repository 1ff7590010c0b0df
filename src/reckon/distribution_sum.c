#include "reckon/distribution_sum.h"

#include <float.h>
#include <math.h>
#include <string.h>

/* the last point, and the point of the median */
enum { LAST = NORMAL_LAST, MEDIAN = NORMAL_MEDIAN };
/* places where a sum or product is asked, at most */
enum { PLACES = DISTRIBUTION_POINTS + 11 };
/* more draws than these are reckoned as so many times as much */
enum { MANY = 1024 };

/* how far the points where a normal has -1.6 and 1.6 lie from the median */
struct halves {
    double lower, upper;
};

/* in parts of `unit` */
static struct halves
halves_of(const struct distribution *d, double unit)
{
    const double *p = d->points;
    return (struct halves){(p[MEDIAN] - p[MEDIAN - 8]) / unit, (p[MEDIAN + 8] - p[MEDIAN]) / unit};
}

static double
smaller(double a, double b)
{
    return a < b ? a : b;
}

static double
larger(double a, double b)
{
    return a > b ? a : b;
}

/* how narrow one is beside another, from its wider half to the steeper one of that; a half that is
 * one point alone is moved apart and does not count */
static double
narrowness(struct halves of, struct halves beside)
{
    const double least = smaller(beside.lower, beside.upper),
                 most = larger(beside.lower, beside.upper);
    return larger(of.lower, of.upper) / larger(least > 0 ? least : most, DBL_MIN);
}

static bool
is_step(struct halves h)
{
    return h.lower <= 0 || h.upper <= 0;
}

/* beside what is over twelve times as wide, a spread adds a third of a hundredth to the width: its
 * mean is enough */
static const double NARROW = 0.08;

/* whether its halves are of unlike width, so that its density leaps at the median */
static bool
has_leap(const struct distribution *d)
{
    const double *p = d->points;
    const double up = p[MEDIAN + 1] - p[MEDIAN], down = p[MEDIAN] - p[MEDIAN - 1];
    return up > 1.5 * down || down > 1.5 * up;
}

/* whether it has an edge in the middle, or at its ends as a rectangular one: nodes far apart would
 * miss it */
static bool
has_edge(const struct distribution *d)
{
    const double *p = d->points, median = p[MEDIAN];
    return p[LAST] - median < 1.5 * (p[MEDIAN + 8] - median) || has_leap(d);
}

/* a distribution function between the points; what lies in one point alone (a step) may be left out
 */
struct curve {
    const double *points;
    double below[DISTRIBUTION_POINTS]; /* at each point */
    double mass[LAST], bend[LAST];     /* between it and the next */
    double per[LAST];                  /* one by the distance to the next */
    double all;
};

static void
curve_begin(struct curve *c, const struct distribution *d, bool steps)
{
    const double *p = c->points = d->points;
    c->below[0] = normal_below[0];
    for (size_t k = 0; k < LAST; k++) {
        const bool step_here = p[k + 1] <= p[k];
        c->mass[k] = step_here && !steps ? 0 : normal_below[k + 1] - normal_below[k];
        c->bend[k] = step_here ? 0 : normal_bend[k];
        c->per[k] = step_here ? 0 : 1 / (p[k + 1] - p[k]);
        c->below[k + 1] = c->below[k] + c->mass[k];
    }
    c->all = c->below[LAST] + normal_below[0];
}

/* A sum or product of two is gathered from the smoother one, whole, moved or scaled by each node of
 * the narrower one. What the wider one has in one point alone is moved by the narrower one, whole.
 */
struct gathering {
    const struct distribution *wide, *narrow;
    const struct nodes *nodes; /* of the narrow one */
    bool product;
    double x[PLACES];       /* where the outcome is asked: near its quantiles */
    double chance[PLACES];  /* that it is at most so much */
    size_t count;           /* of both */
    double least, greatest; /* that the outcome may be */
};

/* so much of a curve, moved or scaled by a value of the other; nothing of it is nothing */
static void
gather_curve(struct gathering *g, const struct curve *c, double value, double weight)
{
    const double *p = c->points;
    const bool nothing = g->product && value <= 0;
    const double scale = g->product && !nothing ? 1 / value : 1, by = g->product ? 0 : value;
    size_t at = nothing ? LAST : 0, k = 0;
    while (k < g->count && (g->x[k] - by) * scale < p[0] && !nothing)
        k++;
    for (; k < g->count && at < LAST; k++) {
        const double x = (g->x[k] - by) * scale;
        while (at < LAST && p[at + 1] <= x)
            at++;
        if (at == LAST)
            break;
        const double part = (x - p[at]) * c->per[at];
        g->chance[k] += weight * (c->below[at] + part * (c->mass[at] + (1 - part) * c->bend[at]));
    }
    for (; k < g->count; k++)
        g->chance[k] += weight * c->all;
}

static void
gather_steps(struct gathering *g)
{
    const double *p = g->wide->points;
    struct curve narrow = {.points = NULL};
    for (size_t k = 0; k < LAST; k++) {
        const size_t from = k;
        while (k < LAST && p[k + 1] <= p[k])
            k++;
        if (k == from)
            continue;
        if (narrow.points == NULL)
            curve_begin(&narrow, g->narrow, true);
        gather_curve(g, &narrow, p[from], normal_below[k] - normal_below[from]);
    }
}

/* a place more, in their order */
static void
ask_also(struct gathering *g, double x)
{
    size_t k = g->count++;
    for (; k > 0 && g->x[k - 1] > x; k--)
        g->x[k] = g->x[k - 1];
    g->x[k] = x;
}

/* where the density of the wider one leaps the outcome rises as the narrower one does */
static void
ask_about_leap(struct gathering *g)
{
    const double median = g->wide->points[MEDIAN];
    for (size_t i = 0; i < normal_usual.count; i++) {
        const double by = g->narrow->points[normal_usual.first + i * normal_usual.stride];
        ask_also(g, g->product ? median * by : median + by);
    }
}

/* Nodes far apart do where the one is clearly the narrower. */
static void
gather(struct gathering *g, double narrowness)
{
    const bool much = narrowness < 0.3;
    const bool edge = has_edge(g->wide) || has_edge(g->narrow);
    struct curve wide;
    if (has_leap(g->wide))
        ask_about_leap(g);
    g->nodes =
        edge ? (much ? &normal_usual : &normal_fine) : (much ? &normal_coarse : &normal_usual);
    memset(g->chance, 0, sizeof g->chance);
    curve_begin(&wide, g->wide, false);
    for (size_t i = 0; i < g->nodes->count; i++)
        gather_curve(g, &wide, g->narrow->points[g->nodes->first + i * g->nodes->stride],
                     g->nodes->weights[i]);
    gather_steps(g);
}

/* back to quantiles, between two places as a normal rises there */
static void
gathering_end(const struct gathering *g, struct distribution *out)
{
    size_t at = 0;
    for (size_t k = 0; k <= LAST; k++) {
        while (at < g->count && g->chance[at] < normal_below[k])
            at++;
        const bool least = at == 0, greatest = at == g->count;
        const double from = least ? g->least : g->x[at - 1], to = greatest ? g->greatest : g->x[at];
        const double low = least ? 0 : g->chance[at - 1], high = greatest ? 1 : g->chance[at];
        const double part = high > low ? (normal_below[k] - low) / (high - low) : 1;
        const size_t cell = k < LAST ? k : LAST - 1;
        const double mass = normal_below[cell + 1] - normal_below[cell];
        /* where two places lie far apart there is no telling how it bends */
        const double bent =
            high - low < 2 * mass ? normal_bend[cell] * (high - low) / (mass * mass) : 0;
        out->points[k] = from + (to - from) * (part - part * (1 - part) * bent);
    }
}

/* How far from the median two together are at a point that is so far from it in each: near the
 * middle as independent ones, towards the ends as far as both can be. */
static double
together(double a, double b, size_t k)
{
    const double end = ((double)k - MEDIAN) / MEDIAN, four = end * end * end * end,
                 part = four * four;
    return (1 - part) * sqrt(a * a + b * b) + part * fabs(a + b);
}

/* a wide one moved by a narrow one */
static struct distribution
moved(const struct distribution *wide, const struct distribution *narrow)
{
    struct distribution out;
    const double by = distribution_mean(narrow);
    for (size_t k = 0; k <= LAST; k++)
        out.points[k] = larger(wide->points[k] + by, narrow->points[k]);
    return out;
}

struct distribution
distribution_sum(const struct distribution *a, const struct distribution *b)
{
    struct distribution out;
    if (distribution_is_exact(a) || distribution_is_exact(b)) {
        for (size_t k = 0; k <= LAST; k++)
            out.points[k] = a->points[k] + b->points[k];
        return out;
    }
    const struct halves of_a = halves_of(a, 1), of_b = halves_of(b, 1);
    const double b_in_a = narrowness(of_b, of_a), a_in_b = narrowness(of_a, of_b);
    if (b_in_a <= NARROW && !is_step(of_a))
        return moved(a, b);
    if (a_in_b <= NARROW && !is_step(of_b))
        return moved(b, a);
    const bool first = b_in_a < a_in_b;
    struct gathering g = {
        .wide = first ? a : b, .narrow = first ? b : a, .count = DISTRIBUTION_POINTS};
    g.least = a->points[0] + b->points[0];
    g.greatest = a->points[LAST] + b->points[LAST];
    for (size_t k = 0; k <= LAST; k++) {
        const double off =
            together(a->points[k] - a->points[MEDIAN], b->points[k] - b->points[MEDIAN], k);
        g.x[k] = a->points[MEDIAN] + b->points[MEDIAN] + (k < MEDIAN ? -off : off);
    }
    gather(&g, first ? b_in_a : a_in_b);
    gathering_end(&g, &out);
    for (size_t k = 0; k <= LAST; k++)
        out.points[k] = larger(out.points[k], larger(a->points[k], b->points[k]));
    return out;
}

/* near the quantile k of a product */
static double
product_about(const struct distribution *a, const struct distribution *b, size_t k)
{
    const double median_a = a->points[MEDIAN], median_b = b->points[MEDIAN];
    const double x = a->points[k], y = b->points[k];
    if (x <= 0 || y <= 0 || median_a <= 0 || median_b <= 0)
        return x * y;
    if (k < MEDIAN)
        return median_a * median_b / (1 + together(median_a / x - 1, median_b / y - 1, k));
    return median_a * median_b * (1 + together(x / median_a - 1, y / median_b - 1, k));
}

struct distribution
distribution_product(const struct distribution *a, const struct distribution *b)
{
    if (distribution_is_exact(a))
        return distribution_scale(b, a->points[0]);
    if (distribution_is_exact(b))
        return distribution_scale(a, b->points[0]);
    /* widths are compared in parts of the means */
    const double mean_a = distribution_mean(a), mean_b = distribution_mean(b);
    const struct halves of_a = halves_of(a, mean_a), of_b = halves_of(b, mean_b);
    const double b_in_a = narrowness(of_b, of_a), a_in_b = narrowness(of_a, of_b);
    if (b_in_a <= NARROW && !is_step(of_a))
        return distribution_scale(a, mean_b);
    if (a_in_b <= NARROW && !is_step(of_b))
        return distribution_scale(b, mean_a);
    struct distribution out;
    const bool first = b_in_a < a_in_b;
    struct gathering g = {.wide = first ? a : b,
                          .narrow = first ? b : a,
                          .product = true,
                          .count = DISTRIBUTION_POINTS};
    g.least = a->points[0] * b->points[0];
    g.greatest = a->points[LAST] * b->points[LAST];
    for (size_t k = 0; k <= LAST; k++)
        g.x[k] = product_about(a, b, k);
    gather(&g, first ? b_in_a : a_in_b);
    gathering_end(&g, &out);
    return out;
}

struct distribution
distribution_draws(const struct distribution *d, double n)
{
    if (n > MANY) {
        struct distribution many = distribution_draws(d, MANY);
        return distribution_scale(&many, n / MANY);
    }
    double whole = floor(n);
    struct distribution sum = distribution_scale(d, n - whole), doubled = *d;
    for (unsigned left = (unsigned)whole; left > 0; left >>= 1) {
        if (left & 1)
            sum = distribution_sum(&sum, &doubled);
        if (left > 1)
            doubled = distribution_sum(&doubled, &doubled);
    }
    return sum;
}
