#include "reckon/beside.h"

#include <math.h>

#include "reckon/limit_ways.h"

/* A food that brings less than this part of its limit to each of two dishes is far from it in both
 * together, with the allowance for fresh produce or without. */
static const double MATTERS = 0.1;

/* the part of a limit over the portion, in whatever way it is made; INFINITY: no telling */
static double
part_of(struct arena *a, struct shares *s, size_t column)
{
    const struct limit_case c = {column, SIZE_MAX};
    if (!shares_concern_any(s, &c)) /* before a limit is looked up: it would be noted as read */
        return 0;
    if (column == SITTING ? limits_sitting(s->phase, s->reads) == NULL
                          : !limits_hold(s->phase, (enum group)column, s->reads))
        return 0;
    const double most = share_most(s, &c);
    if (most <= MATTERS)
        return most;
    if (limit_ways_twice(s, &c))
        return INFINITY;
    if (column == SITTING)
        shares_build_sitting(s);
    return share_greatest(a, s, &c, s->close_at / 2);
}

/* whether a serve comes to something of any limit for one food */
static bool
matters(const struct shares *s, size_t serve)
{
    for (size_t column = 0; column < COLUMNS; column++) {
        const struct limit_case c = {column, serve};
        const bool food =
            column == SERVED || (column < GROUPS && s->phase->groups[column].scope == SCOPE_FOOD);
        if (food && shares_concern_any(s, &c) &&
            (column == SERVED || limits_hold(s->phase, (enum group)column, s->reads)) &&
            share_most(s, &c) > MATTERS)
            return true;
    }
    return false;
}

static void
note_foods(struct arena *a, const struct shares *s, struct beside *out)
{
    const struct sheet *sheet = s->sheet;
    out->foods = arena_take_array(a, sheet->entry_count + 1, sizeof *out->foods);
    for (size_t i = 0; i < sheet->entry_count; i++) {
        const struct sheet_entry *e = &sheet->entries[i];
        bool again = e->food == NULL;
        for (size_t k = 0; k < i; k++)
            again = again || sheet->entries[k].serve == e->serve;
        if (!again && matters(s, e->serve))
            out->foods[out->count++] = food_lead(e->food);
    }
}

void
beside_reckon(struct arena *a, const struct phase_stand *stand, struct beside *out)
{
    struct shares *shares = stand->shares;
    *out = (struct beside){.fits = shares->sheet->dish->portions_known &&
                                   stand->standing == STANDING_WITHIN};
    if (!out->fits)
        return;
    out->sitting = part_of(a, shares, SITTING);
    for (enum group g = 0; g < GROUPS; g++)
        if (shares->phase->groups[g].scope == SCOPE_PORTION)
            out->portion = fmax(out->portion, part_of(a, shares, g));
    out->fits = isfinite(out->portion) && isfinite(out->sitting);
    note_foods(a, shares, out);
}
