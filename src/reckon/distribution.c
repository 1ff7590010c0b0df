#include "reckon/distribution.h"

#include <float.h>
#include <math.h>
#include <stdbool.h>

#include "reckon/normal.h"

/* the last point, and the point of the median */
enum { LAST = NORMAL_LAST, MEDIAN = NORMAL_MEDIAN };

/* the standard normal's 95th percentile */
static const double z95 = 1.6448536269514722;

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

bool
distribution_is_exact(const struct distribution *d)
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
    double down = steady_exp(-sigma_below * NORMAL_STEP),
           up = steady_exp(sigma_above * NORMAL_STEP);
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
        double p = 2 * normal_below[k];
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

double
distribution_mean(const struct distribution *d)
{
    double sum = 0;
    for (size_t i = 0; i < normal_fine.count; i++)
        sum += d->points[i * normal_fine.stride] * normal_fine.weights[i];
    return sum;
}

double
distribution_variance(const struct distribution *d)
{
    const double mean = distribution_mean(d);
    double sum = 0;
    for (size_t i = 0; i < normal_fine.count; i++) {
        const double off = d->points[i * normal_fine.stride] - mean;
        sum += off * off * normal_fine.weights[i];
    }
    return sum;
}

static double
below_between(size_t k, double part) /* the probability below so much of the way to point k + 1 */
{
    return normal_below[k] +
           part * (normal_below[k + 1] - normal_below[k] + (1 - part) * normal_bend[k]);
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
    return 1 - below_between(k, (limit - d->points[k]) / (d->points[k + 1] - d->points[k]));
}

double
distribution_quantile(const struct distribution *d, double p)
{
    if (p <= normal_below[0] || distribution_is_exact(d))
        return d->points[0];
    size_t k = p < 0.5 ? 0 : MEDIAN - 1;
    while (k < LAST - 1 && normal_below[k + 1] < p)
        k++;
    const double mass = normal_below[k + 1] - normal_below[k];
    double part = (p - normal_below[k]) / mass;
    part -= part * (1 - part) * normal_bend[k] / mass;
    return d->points[k] + (d->points[k + 1] - d->points[k]) * (part < 1 ? part : 1);
}
