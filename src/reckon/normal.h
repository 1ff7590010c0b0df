/* The standard normal at evenly spaced points: the grid that all distributions stand on. */
#ifndef RECKON_NORMAL_H
#define RECKON_NORMAL_H

#include <stddef.h>

enum { NORMAL_POINTS = 41, NORMAL_LAST = NORMAL_POINTS - 1, NORMAL_MEDIAN = NORMAL_LAST / 2 };

/* distance of two points, in standard deviations: they stand at -3.20, -3.04 ... 3.20 */
#define NORMAL_STEP 0.16

/* its distribution function at the points */
extern const double normal_below[NORMAL_POINTS];

/* By how much that function bends between a point and the next: four times what it is in the middle
 * above the mean of both. What is near a normal is read between the points with it; even masses
 * would widen it a little each time. */
extern const double normal_bend[NORMAL_LAST];

/* Every second, fourth and eighth point, and exp(-z * z / 2) at each in parts of its sum over all:
 * with these weights the trapezoid rule integrates over a normal, and what is near one, far beyond
 * what figures are worth. */
struct nodes {
    size_t count, first, stride;
    double weights[NORMAL_LAST / 2 + 1];
};
extern const struct nodes normal_fine, normal_usual, normal_coarse;

#endif
