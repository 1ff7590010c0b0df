#include "reckon/fraction.h"

#include <math.h>

void
fraction_add(struct text *t, double value)
{
    static const struct {
        double value;
        const char *sign;
    } fractions[] = {{0.125, "⅛"}, {0.25, "¼"},    {1.0 / 3, "⅓"}, {0.375, "⅜"}, {0.5, "½"},
                     {0.625, "⅝"}, {2.0 / 3, "⅔"}, {0.75, "¾"},    {0.875, "⅞"}};
    const double whole = floor(value + 1e-6), rest = value - whole;
    const char *sign = NULL;
    for (size_t i = 0; i < sizeof fractions / sizeof *fractions; i++)
        if (fabs(rest - fractions[i].value) < 0.009)
            sign = fractions[i].sign;
    if (sign == NULL) {
        text_add_number(t, value, 2);
        return;
    }
    if (whole > 0)
        text_add_number(t, whole, 0);
    text_add_string(t, sign);
}
