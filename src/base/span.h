/* A span: low, mid, high. An amount with its honest width; low <= mid <= high, all finite. */
#ifndef BASE_SPAN_H
#define BASE_SPAN_H

#include <stdbool.h>

struct span {
    double low, mid, high;
};

/* no width */
struct span span_exact(double value);
struct span span_make(double low, double mid, double high);
/* low to high with the mid between them */
struct span span_between(double low, double high);
/* inline, as the arithmetic of every portion is made of these */
static inline struct span
span_add(struct span a, struct span b)
{
    return (struct span){a.low + b.low, a.mid + b.mid, a.high + b.high};
}
/* end by end: both are >= 0 and independent */
static inline struct span
span_times(struct span a, struct span b)
{
    return (struct span){a.low * b.low, a.mid * b.mid, a.high * b.high};
}
static inline struct span
span_scale(struct span a, double factor)
{
    return (struct span){a.low * factor, a.mid * factor, a.high * factor};
}
/* a / b end by end for amounts >= 0 (a.low / b.high ...); b.low must be > 0 */
struct span span_over(struct span a, struct span b);
/* the span that covers both; mid is the mean of the mids */
struct span span_cover(struct span a, struct span b);
bool span_overlap(struct span a, struct span b);
bool span_valid(struct span a);

#endif
