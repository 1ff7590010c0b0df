#include "reckon/distribution.h"

#include <float.h>
#include <math.h>
#include <stdbool.h>
#include <stdint.h>
#include <string.h>

/* the last point, and the point of the median */
enum { LAST = DISTRIBUTION_POINTS - 1, MEDIAN = LAST / 2 };
/* cells that a sum or product is gathered in */
enum { CELLS = 512 };
/* more draws than these are reckoned as so many times as much */
enum { MANY = 1024 };

/* distance of two points, in standard deviations of the normal */
static const double step = 0.16;
/* the standard normal's 95th percentile */
static const double z95 = 1.6448536269514722;

/* the standard normal's distribution function at the points from the median up */
static const double cumulative[MEDIAN + 1] = {
    0.5000000000000000, 0.5635594628914329, 0.6255158347233201, 0.6843863034837774,
    0.7389137003071384, 0.7881446014166034, 0.8314723925331622, 0.8686431189572692,
    0.8997274320455579, 0.9250663004656730, 0.9452007083004420, 0.9607960967125173,
    0.9725710502961631, 0.9812372335650623, 0.9874545385640534, 0.9918024640754038,
    0.9947663918364442, 0.9967359041841086, 0.9980116241451057, 0.9988171092568956,
    0.9993128620620841};

/* exp(-z * z / 2) at every second point from the median up, in parts of its sum over all: with
 * these weights the trapezoid rule integrates over a normal, and what is near one, far beyond what
 * figures are worth */
static const double weights[MEDIAN / 2 + 1] = {
    0.1277560655771241, 0.1213795858041686, 0.1040969532865419, 0.0805858203625182,
    0.0563128475980813, 0.0355209515895848, 0.0202250656316044, 0.0103949769927975,
    0.0048226458452857, 0.0020196469279906, 0.0007634731728648};

static double
point_below(size_t k) /* the probability below point k */
{
    return k < MEDIAN ? 1 - cumulative[MEDIAN - k] : cumulative[k - MEDIAN];
}

/* e^x and ln x for x of ordinary size: the libraries' own may differ in the last bit from machine
 * to machine */
static double
steady_exp(double x)
{
    if (x > 700 || x < -700)
        return x > 0 ? DBL_MAX / 4 : 0;
    double halvings = floor(x / 0.69314718055994531 + 0.5);
    double rest = x - halvings * 0.69314718055994531, sum = 1;
    for (int k = 16; k > 0; k--)
        sum = 1 + sum * rest / k;
    return ldexp(sum, (int)halvings);
}

static double
steady_log(double x)
{
    int exponent;
    double m = frexp(x, &exponent);
    if (m < 0.70710678118654752) {
        m *= 2;
        exponent--;
    }
    double s = (m - 1) / (m + 1), square = s * s, sum = 0;
    for (int k = 25; k > 0; k -= 2)
        sum = sum * square + 1.0 / k;
    return 2 * s * sum + exponent * 0.69314718055994531;
}

static bool
is_exact(const struct distribution *d)
{
    return d->points[0] == d->points[LAST];
}

struct distribution
distribution_exact(double value)
{
    struct distribution d;
    for (size_t k = 0; k <= LAST; k++)
        d.points[k] = value;
    return d;
}

/* the points of a log-normal are a geometric row: one factor below the median, one above */
static struct distribution
log_normal(double median, double sigma_below, double sigma_above)
{
    struct distribution d;
    double down = steady_exp(-sigma_below * step), up = steady_exp(sigma_above * step);
    d.points[MEDIAN] = median;
    for (size_t k = 1; k <= MEDIAN; k++) {
        d.points[MEDIAN - k] = d.points[MEDIAN - k + 1] * down;
        d.points[MEDIAN + k] = d.points[MEDIAN + k - 1] * up;
    }
    return d;
}

struct distribution
distribution_samples(double mean, double sd)
{
    if (!(mean > 0) || !(sd > 0))
        return distribution_exact(mean > 0 ? mean : 0);
    double spread = 1 + sd / mean * (sd / mean);
    double sigma = sqrt(steady_log(spread));
    return log_normal(mean / sqrt(spread), sigma, sigma);
}

struct distribution
distribution_range(double low, double mid, double high)
{
    if (low >= high)
        return distribution_exact(mid);
    if (low > 0)
        return log_normal(mid, steady_log(mid / low) / z95, steady_log(high / mid) / z95);
    struct distribution d;
    for (size_t k = 0; k <= LAST; k++) {
        double p = 2 * point_below(k);
        d.points[k] = p < 1 ? mid * p : mid + (high - mid) * (p - 1);
    }
    return d;
}

struct distribution
distribution_below(double high)
{
    return distribution_range(0, high / 2, high);
}

struct distribution
distribution_scale(const struct distribution *d, double factor)
{
    struct distribution out;
    for (size_t k = 0; k <= LAST; k++)
        out.points[k] = d->points[k] * factor;
    return out;
}

/* The bits of a double that is not negative, read as a number, ascend with it and are nearly its
 * logarithm: cells of equal width in them are narrow where values are small, and need no library.
 */
static int64_t
bits_of(double x)
{
    int64_t bits;
    memcpy(&bits, &x, sizeof bits);
    return bits;
}

static double
of_bits(int64_t bits)
{
    double x;
    memcpy(&x, &bits, sizeof x);
    return x;
}

/* a histogram; until it is summed up, a cell holds by how much more mass it has than the one before
 */
struct cells {
    int64_t first; /* bits of the lower edge of the first */
    double width;  /* of a cell, in bits */
    double mass[CELLS + 2];
};

/* from the least to the greatest value; what is less than a millionth of the greatest is gathered
 * in the first cell */
static void
cells_begin(struct cells *c, double least, double greatest)
{
    if (least < greatest * 1e-6)
        least = greatest * 1e-6;
    c->first = bits_of(least);
    c->width = (double)(bits_of(greatest) - c->first + 1) / CELLS;
    memset(c->mass, 0, sizeof c->mass);
}

/* where a value lies, in cells */
static double
cells_place(const struct cells *c, double value)
{
    int64_t beyond = bits_of(value) - c->first;
    return beyond > 0 ? (double)beyond / c->width : 0;
}

/* from this place on, so much more mass in each cell */
static inline void
cells_rise(struct cells *c, double place, double mass)
{
    size_t cell = (size_t)place;
    double beyond = mass * (place - (double)cell);
    c->mass[cell] += mass - beyond;
    c->mass[cell + 1] += beyond;
}

/* mass that lies evenly between two places; between places that are one, in their cell */
static inline void
cells_spread(struct cells *c, double from, double to, double mass)
{
    if (to - from < 1.0 / 64) {
        c->mass[(size_t)from] += mass;
        c->mass[(size_t)from + 1] -= mass;
        return;
    }
    mass /= to - from;
    cells_rise(c, from, mass);
    cells_rise(c, to, -mass);
}

static double
cells_edge(const struct cells *c, size_t cell)
{
    return of_bits(c->first + (int64_t)((double)cell * c->width));
}

/* sums up; the quantiles, within a cell the mass lies evenly */
static void
cells_quantiles(struct cells *c, struct distribution *out)
{
    double all = 0, below = 0;
    for (size_t k = 0; k < CELLS; k++) {
        c->mass[k + 1] += c->mass[k];
        all += c->mass[k];
    }
    size_t cell = 0;
    for (size_t k = 0; k <= LAST; k++) {
        double wanted = point_below(k) * all;
        while (cell < CELLS - 1 && below + c->mass[cell] < wanted)
            below += c->mass[cell++];
        double part = c->mass[cell] > 0 ? (wanted - below) / c->mass[cell] : 0;
        double low = cells_edge(c, cell), high = cells_edge(c, cell + 1);
        out->points[k] = low + (high - low) * (part > 0 ? fmin(part, 1) : 0);
    }
}

/* where a second point of the narrower one moves or scales the wider one to, and how far its own
 * part of the mass reaches to either side */
struct shift {
    double moved[3], scaled[3]; /* lower, point, upper */
    double weight;
};

/* A sum or product of two is gathered from the wider one, whole, moved or scaled by each second
 * point of the narrower one: the wider one's points by themselves would leave steps. So would what
 * the wider one has in one point alone: it lies over the narrower one's part. */
static void
cells_gather(struct cells *c, const struct distribution *wide, const struct shift *by)
{
    double from = cells_place(c, wide->points[0] * by->scaled[1] + by->moved[1]);
    cells_spread(c, from, from, point_below(0) * by->weight);
    for (size_t k = 1; k <= LAST; k++) {
        const double x = wide->points[k], mass = (point_below(k) - point_below(k - 1)) * by->weight;
        double to = cells_place(c, x * by->scaled[1] + by->moved[1]);
        if (x > wide->points[k - 1])
            cells_spread(c, from, to, mass);
        else
            cells_spread(c, cells_place(c, x * by->scaled[0] + by->moved[0]),
                         cells_place(c, x * by->scaled[2] + by->moved[2]), mass);
        from = to;
    }
    cells_spread(c, from, from, point_below(0) * by->weight);
}

static double
narrow_weight(size_t k)
{
    return weights[(k < MEDIAN ? MEDIAN - k : k - MEDIAN) / 2];
}

/* between the points where a normal has -1.6 and 1.6 */
static double
width_of(const struct distribution *d)
{
    return d->points[MEDIAN + 8] - d->points[MEDIAN - 8];
}

/* twice its narrower half: one that leans to a side has a steep one */
static double
steep_width(const struct distribution *d)
{
    const double median = d->points[MEDIAN];
    return 2 * fmin(median - d->points[MEDIAN - 8], d->points[MEDIAN + 8] - median);
}

double
distribution_mean(const struct distribution *d)
{
    double sum = 0;
    for (size_t k = 0; k <= LAST; k += 2)
        sum += d->points[k] * narrow_weight(k);
    return sum;
}

double
distribution_variance(const struct distribution *d)
{
    const double mean = distribution_mean(d);
    double sum = 0;
    for (size_t k = 0; k <= LAST; k += 2)
        sum += (d->points[k] - mean) * (d->points[k] - mean) * narrow_weight(k);
    return sum;
}

/* beside what is over twelve times as wide, a spread adds a third of a hundredth to the width: its
 * mean is enough */
static const double NARROW = 0.08;

/* every second point of a narrow one, or every fourth where it is clearly the narrower: masses are
 * taken in parts of their sum, and the trapezoid rule over a normal is as exact with steps of 0.8
 */
static size_t
strides_over(double narrow, double wide)
{
    return narrow < 0.3 * wide ? 4 : 2;
}

/* a point of a narrow one, and how far its part reaches: half way to its neighbours */
static void
neighbours(const struct distribution *narrow, size_t k, size_t step_over, double out[3])
{
    const double *p = narrow->points;
    out[1] = p[k];
    out[0] = k >= step_over ? (p[k - step_over] + p[k]) / 2 : p[k];
    out[2] = k + step_over <= LAST ? (p[k] + p[k + step_over]) / 2 : p[k];
}

/* a wide one moved by a narrow one */
static struct distribution
moved(const struct distribution *wide, const struct distribution *narrow)
{
    struct distribution out;
    const double by = distribution_mean(narrow);
    for (size_t k = 0; k <= LAST; k++)
        out.points[k] = fmax(wide->points[k] + by, narrow->points[k]);
    return out;
}

struct distribution
distribution_sum(const struct distribution *a, const struct distribution *b)
{
    struct distribution out;
    if (is_exact(a) || is_exact(b)) {
        for (size_t k = 0; k <= LAST; k++)
            out.points[k] = a->points[k] + b->points[k];
        return out;
    }
    if (width_of(b) <= NARROW * steep_width(a))
        return moved(a, b);
    if (width_of(a) <= NARROW * steep_width(b))
        return moved(b, a);
    bool first = a->points[LAST] - a->points[0] > b->points[LAST] - b->points[0];
    const struct distribution *wide = first ? a : b, *narrow = first ? b : a;
    struct cells c;
    cells_begin(&c, a->points[0] + b->points[0], a->points[LAST] + b->points[LAST]);
    const size_t step_over = strides_over(width_of(narrow), width_of(wide));
    for (size_t k = 0; k <= LAST; k += step_over) {
        struct shift by = {.scaled = {1, 1, 1}, .weight = narrow_weight(k)};
        neighbours(narrow, k, step_over, by.moved);
        cells_gather(&c, wide, &by);
    }
    cells_quantiles(&c, &out);
    for (size_t k = 0; k <= LAST; k++)
        out.points[k] = fmax(out.points[k], fmax(a->points[k], b->points[k]));
    return out;
}

struct distribution
distribution_product(const struct distribution *a, const struct distribution *b)
{
    if (is_exact(a))
        return distribution_scale(b, a->points[0]);
    if (is_exact(b))
        return distribution_scale(a, b->points[0]);
    const double mean_a = distribution_mean(a),
                 mean_b = distribution_mean(b); /* widths are compared in parts of these */
    if (width_of(b) * mean_a <= NARROW * steep_width(a) * mean_b)
        return distribution_scale(a, mean_b);
    if (width_of(a) * mean_b <= NARROW * steep_width(b) * mean_a)
        return distribution_scale(b, mean_a);
    struct distribution out;
    bool first = a->points[LAST] * b->points[0] > b->points[LAST] * a->points[0];
    const struct distribution *wide = first ? a : b, *narrow = first ? b : a;
    struct cells c;
    cells_begin(&c, a->points[0] * b->points[0], a->points[LAST] * b->points[LAST]);
    const double wide_mean = first ? mean_a : mean_b, narrow_mean = first ? mean_b : mean_a;
    const size_t step_over =
        strides_over(width_of(narrow) * wide_mean, width_of(wide) * narrow_mean);
    for (size_t k = 0; k <= LAST; k += step_over) {
        struct shift by = {.weight = narrow_weight(k)};
        neighbours(narrow, k, step_over, by.scaled);
        cells_gather(&c, wide, &by);
    }
    cells_quantiles(&c, &out);
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

double
distribution_over(const struct distribution *d, double limit)
{
    if (limit >= d->points[LAST])
        return 0;
    if (limit < d->points[0])
        return 1;
    size_t k = 0;
    while (d->points[k + 1] <= limit)
        k++;
    double part = (limit - d->points[k]) / (d->points[k + 1] - d->points[k]);
    return 1 - (point_below(k) + part * (point_below(k + 1) - point_below(k)));
}

double
distribution_quantile(const struct distribution *d, double p)
{
    if (p <= point_below(0))
        return d->points[0];
    size_t k = 0;
    while (k < LAST - 1 && point_below(k + 1) < p)
        k++;
    double part = (p - point_below(k)) / (point_below(k + 1) - point_below(k));
    return d->points[k] + (d->points[k + 1] - d->points[k]) * (part < 1 ? part : 1);
}
