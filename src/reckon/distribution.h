/* An uncertain amount that is never negative, and the arithmetic of independent ones. Distributions
 * are propagated, not spans (JCGM 101:2008), and by numerical integration instead of random draws:
 * only IEEE 754 additions, products, divisions and square roots, so every machine gives the same
 * bits. Independence is the caller's to know: one figure that stands in two lines is multiplied
 * once, with the sum of both amounts. */
#ifndef RECKON_DISTRIBUTION_H
#define RECKON_DISTRIBUTION_H

#include <stdbool.h>

#include "reckon/normal.h"

enum { DISTRIBUTION_POINTS = NORMAL_POINTS };

/* its quantiles where a standard normal has -3.20, -3.04 ... 3.20; ascending, all >= 0 */
struct distribution {
    double points[DISTRIBUTION_POINTS];
};

/* no spread; zero too */
struct distribution distribution_exact(double value);
/* one sample out of many whose mean and standard deviation are known: log-normal with these two
 * moments */
struct distribution distribution_samples(double mean, double sd);
/* low, mid and high are the 5th, 50th and 95th percentile: log-normal on each side of the median;
 * rectangular on each side where low is 0. An amount's span is read so too. */
struct distribution distribution_range(double low, double mid, double high);
/* anything from 0 to high is equally likely */
struct distribution distribution_below(double high);

/* factor >= 0 */
struct distribution distribution_scale(const struct distribution *d, double factor);
/* whether it has no spread */
bool distribution_is_exact(const struct distribution *d);

double distribution_mean(const struct distribution *d);
double distribution_variance(const struct distribution *d);
/* the probability that it is above the limit, 0 to 1; what is exactly at the limit is not above */
double distribution_over(const struct distribution *d, double limit);
/* the value that it is below with probability p; p outside 0.0007 to 0.9993 is taken as these */
double distribution_quantile(const struct distribution *d, double p);

#endif
