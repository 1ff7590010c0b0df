#include "reckon/fresh.h"

/* the part of its limit up to which another group leaves the allowance for fresh produce */
static const double FRESH_BESIDE = 0.25;

/* g per 100 g that were measured: what was looked for and not found is not present, and a sum that
 * nobody gave is that of its parts */
static double
measured_of(const struct sheet_entry *e, enum group g)
{
    const struct content *content = &e->composition->groups[g];
    if (content->figure != NULL)
        return content->figure->kind == FIGURE_RANGE || content->figure->kind == FIGURE_SAMPLES
                   ? content->mid
                   : 0;
    double sum = 0;
    for (enum group part = 0; part < GROUPS; part++)
        if (groups_is_part(part, g))
            sum += measured_of(e, part);
    return sum;
}

/* Whether nothing but excess fructose is present in a serve; what is estimated from kin is not
 * present either, what nobody can tell is. */
static bool
is_alone(const struct shares *s, const struct limit_case *c, const uint8_t *ways)
{
    for (enum group g = 0; g < GROUPS; g++) {
        double present = 0;
        if (g == EXCESS_FRUCTOSE)
            continue;
        for (size_t i = shares_first(s, c); i != SIZE_MAX; i = shares_next(s, c, i)) {
            const struct sheet_entry *e = &s->sheet->entries[i];
            const struct content *content = &e->composition->groups[g];
            if (!content_is_something(content))
                continue;
            const struct entry_amount amount = shares_amount(s, i, ways);
            const struct figure *limit = limit_for(
                s->phase, g, e->food == NULL ? CLASS_OTHER : e->food->food_class, s->reads);
            if (limit == NULL || amount.count == 0)
                continue;
            const double open = content->kin == NULL ? content->bound : 0;
            present += amount.grams * (measured_of(e, g) + open) / 100 / limit_divisor(limit);
        }
        if (present > FRESH_BESIDE)
            return false;
    }
    return true;
}

bool
fresh_serve(const struct shares *s, const struct limit_case *c, const uint8_t *ways)
{
    for (size_t i = shares_first(s, c); i != SIZE_MAX; i = shares_next(s, c, i))
        for (const struct load *l = s->sheet->entries[i].first; l != NULL; l = l->next)
            if (!l->fresh && shares_taken(s, l, ways))
                return false;
    return is_alone(s, c, ways);
}

const struct figure *
fresh_limit(const struct shares *s, const struct limit_case *c, size_t entry, bool fresh)
{
    const struct food *f = s->sheet->entries[entry].food;
    if (c->column == SITTING)
        return limits_sitting(s->phase, NULL);
    if (fresh)
        return limits_fresh(s->phase, EXCESS_FRUCTOSE, NULL);
    return limit_for(s->phase, (enum group)c->column, f == NULL ? CLASS_OTHER : f->food_class,
                     NULL);
}
