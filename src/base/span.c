#include "base/span.h"

#include <math.h>

struct span
span_exact(double value)
{
    return (struct span){value, value, value};
}

struct span
span_make(double low, double mid, double high)
{
    return (struct span){low, mid, high};
}

struct span
span_between(double low, double high)
{
    return (struct span){low, (low + high) / 2, high};
}

struct span
span_over(struct span a, struct span b)
{
    return (struct span){a.low / b.high, a.mid / b.mid, a.high / b.low};
}

struct span
span_cover(struct span a, struct span b)
{
    return (struct span){fmin(a.low, b.low), (a.mid + b.mid) / 2, fmax(a.high, b.high)};
}

bool
span_overlap(struct span a, struct span b)
{
    return a.low <= b.high && b.low <= a.high;
}

bool
span_valid(struct span a)
{
    return isfinite(a.low) && isfinite(a.mid) && isfinite(a.high) && a.low <= a.mid &&
           a.mid <= a.high;
}
