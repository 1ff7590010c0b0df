/* The worksheet as text while it is written: the figures cited so far, and how numbers look on it.
 * For the worksheet's rooms alone. */
#ifndef WRITE_WORKSHEET_PAGE_H
#define WRITE_WORKSHEET_PAGE_H

#include "base/list.h"
#include "compile/outcome.h"

/* the figures that were used, numbered in the order of their use */
struct cited {
    const struct figure *figure;
    const char *unit, *of; /* "g/mL", "density of maple syrup" */
};

struct page {
    struct text *text;
    struct arena *arena;
    const struct outcome *o;
    struct sheet sheet;
    LIST_OF(struct cited) cited;
};

/* one helping with its numbers on the page */
struct entry_of {
    const struct ingredient *ingredient;
    const struct helping *helping;
    const struct load *load;
    size_t option;
    struct slice number, name; /* "3b", "brown sugar" */
};

/* "12.5 (11–14)" */
struct slice worksheet_span(struct arena *a, struct span s, int decimals);
/* the same with as many decimals as its size asks for */
struct slice worksheet_grams(struct arena *a, struct span s);
/* a number with as many decimals as its size asks for */
struct slice worksheet_number(const struct page *p, double value);
bool worksheet_same(struct span a, struct span b);
/* "[3]": the number of a figure's source, given when it is cited first */
void worksheet_cite(struct page *p, struct text *t, const struct figure *f, const char *unit,
                    const char *what, struct slice of);
/* every food of every way to make each ingredient */
void worksheet_each(struct page *p,
                    void (*each)(struct page *p, const struct entry_of *e, void *ctx), void *ctx);

#endif
