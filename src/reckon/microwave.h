/* Microwave times at other powers: same energy, t x P / P'. A start, not a promise; output powers
 * as rated by IEC 60705. */
#ifndef RECKON_MICROWAVE_H
#define RECKON_MICROWAVE_H

#include "reckon/schedule.h"

struct microwave_row {
    size_t part, step;
    size_t duration; /* of the step's marks */
    double watts;    /* as written; else as the post says once, in an earlier step or its prose or
                        notes */
    double stated_seconds;
    double seconds[8]; /* at each of the site's powers, rounded up to 5 s */
};

struct microwave {
    struct microwave_row *rows;
    size_t count;
    struct microwave_row *bare; /* times without a power: watts 0 */
    size_t bare_count;
};

void microwave_read(struct arena *a, const struct body *body, const struct schedule *s,
                    const double *watts, size_t watt_count, struct microwave *out);

/* seconds at another power, rounded up to whole 5 s */
double microwave_seconds(double seconds, double watts, double other_watts);

#endif
