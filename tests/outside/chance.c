/* The arithmetic of distributions as a calculator of reverse Polish notation, for chance.py: each
 * word of the input is a number, which is pushed, or an operation on what was pushed. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "reckon/distribution_sum.h"

enum { DEEP = 64 };

struct calculator {
    double numbers[DEEP];
    size_t number_count;
    struct distribution stack[DEEP];
    size_t count;
};

static double
number(struct calculator *c)
{
    if (c->number_count == 0)
        exit(2);
    return c->numbers[--c->number_count];
}

static void
push(struct calculator *c, struct distribution d)
{
    if (c->count == DEEP)
        exit(2);
    c->stack[c->count++] = d;
}

static struct distribution *
pop(struct calculator *c)
{
    if (c->count == 0)
        exit(2);
    return &c->stack[--c->count];
}

static void
operate(struct calculator *c, const char *word)
{
    if (strcmp(word, "exact") == 0) {
        push(c, distribution_exact(number(c)));
    } else if (strcmp(word, "samples") == 0) {
        double sd = number(c);
        push(c, distribution_samples(number(c), sd));
    } else if (strcmp(word, "range") == 0) {
        double high = number(c), mid = number(c);
        push(c, distribution_range(number(c), mid, high));
    } else if (strcmp(word, "below") == 0) {
        push(c, distribution_below(number(c)));
    } else if (strcmp(word, "sum") == 0 || strcmp(word, "product") == 0) {
        const struct distribution *b = pop(c), *a = pop(c);
        push(c, word[0] == 's' ? distribution_sum(a, b) : distribution_product(a, b));
    } else if (strcmp(word, "draws") == 0) {
        push(c, distribution_draws(pop(c), number(c)));
    } else if (strcmp(word, "scale") == 0) {
        push(c, distribution_scale(pop(c), number(c)));
    } else if (strcmp(word, "over") == 0 && c->count > 0) {
        printf("%.17g\n", distribution_over(&c->stack[c->count - 1], number(c)));
    } else if (strcmp(word, "quantile") == 0 && c->count > 0) {
        printf("%.17g\n", distribution_quantile(&c->stack[c->count - 1], number(c)));
    } else if (strcmp(word, "drop") == 0) {
        (void)pop(c);
    } else {
        exit(2);
    }
}

int
main(void)
{
    static struct calculator c;
    char word[64];
    while (scanf("%63s", word) == 1) {
        char *end;
        double value = strtod(word, &end);
        if (*end != '\0')
            operate(&c, word);
        else if (c.number_count < DEEP)
            c.numbers[c.number_count++] = value;
        else
            return 2;
    }
    return 0;
}
