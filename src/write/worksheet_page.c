#include "write/worksheet_page.h"

#include <math.h>

struct slice
worksheet_span(struct arena *a, struct span s, int decimals)
{
    struct text t = text_new(a);
    text_add_number(&t, s.mid, decimals);
    if (s.low < s.high) {
        text_add_string(&t, " (");
        text_add_number(&t, s.low, decimals);
        text_add_string(&t, "–");
        text_add_number(&t, s.high, decimals);
        text_add_byte(&t, ')');
    }
    return text_slice(&t);
}

bool
worksheet_same(struct span a, struct span b)
{
    return fabs(a.low - b.low) < 1e-9 && fabs(a.mid - b.mid) < 1e-9 && fabs(a.high - b.high) < 1e-9;
}

static int
decimals_of(struct span s)
{
    return s.mid >= 100 ? 0 : s.mid >= 10 ? 1 : s.mid >= 1 ? 2 : 3;
}

struct slice
worksheet_grams(struct arena *a, struct span s)
{
    return worksheet_span(a, s, decimals_of(s));
}

struct slice
worksheet_number(const struct page *p, double value)
{
    struct text t = text_new(p->arena);
    text_add_number(&t, value, decimals_of(span_exact(value)));
    return text_slice(&t);
}

void
worksheet_cite(struct page *p, struct text *t, const struct figure *f, const char *unit,
               const char *what, struct slice of)
{
    if (f == NULL || f->basis == BASIS_NONE)
        return;
    size_t i = 0;
    while (i < p->cited.count && p->cited.items[i].figure != f)
        i++;
    if (i == p->cited.count)
        *LIST_GROW(p->arena, &p->cited) =
            (struct cited){f, unit, text_format(p->arena, "%s %.*s", what, SLICE_ARGS(of))};
    text_addf(t, "[%zu]", i + 1);
}

void
worksheet_each(struct page *p, void (*each)(struct page *p, const struct entry_of *e, void *ctx),
               void *ctx)
{
    const struct dish *d = &p->o->dish;
    const struct load *load = p->sheet.loads;
    for (size_t i = 0; i < d->count; i++)
        for (size_t o = 0; o < d->ingredients[i].option_count; o++)
            for (size_t k = 0; k < d->ingredients[i].options[o].count; k++) {
                const struct helping *h = &d->ingredients[i].options[o].helpings[k];
                struct entry_of e = {&d->ingredients[i], h, load++, o, {NULL, 0}, {NULL, 0}};
                e.number = o == 0 ? text_formatted(p->arena, "%zu", i + 1)
                                  : text_formatted(p->arena, "%zu%c", i + 1,
                                                   (char)('a' + (o < 26 ? o : 25)));
                e.name = h->food != NULL ? slice_of(foods_shown(h->food, d->region, p->o->reads))
                                         : h->written->name;
                each(p, &e, ctx);
            }
}
