#include "reckon/household_room.h"

#include <math.h>

/* what rounding to the nearest may add, as part of what was written */
static const double ROOM = 1.05;

static bool
carries_something(const struct helping *h, struct reads *reads)
{
    for (enum group g = 0; h->food != NULL && g < GROUPS; g++) {
        const struct figure *content = food_content(h->food, g, reads);
        const bool sum = groups_is_sum(g); /* their parts tell */
        if (figure_known(content) ? content->span.high > 0 : !sum)
            return true;
    }
    return h->food == NULL;
}

/* whether a portion that holds so much more of everything stands as it does */
static bool
has_room(const struct phase_stand *stand, double widened)
{
    return stand->standing >= STANDING_UNKNOWN || stand->room >= widened;
}

/* by how much the most that the measure may hold exceeds what the cook weighed; 1: nothing */
static double
widening(const struct helping *h, const struct household *out, struct reads *reads)
{
    const struct weighing *w = &h->weighing;
    if (!out->by_volume || h->form == NULL || !w->known || w->grams.mid <= 0 ||
        w->used >= w->count || w->measured[w->used].kind != UNIT_WEIGHT)
        return 1;
    const struct figure *density = foods_form_density(h->form, reads);
    if (!figure_known(density) || density->span.mid <= 0)
        return 1;
    return out->grams_rounded / w->grams.mid * density->span.high / density->span.mid;
}

void
household_write_safely(struct arena *a, const struct helping *h, int region, int post_region,
                       const struct tables *t, const struct phase_stand *stand, struct reads *reads,
                       struct household *out)
{
    const bool carries = carries_something(h, reads);
    const bool room = !carries || has_room(stand, ROOM);
    household_write(a, h, region, post_region, t, !room, reads, out);
    if (room && out->grams_rounded > ROOM * h->weighing.grams.mid)
        household_write(a, h, region, post_region, t, true, reads, out);
    const double widened = widening(h, out, reads);
    if (carries && widened > 1 && !has_room(stand, fmax(ROOM, widened)))
        household_write_weight(a, h, region, t, !room, reads, out);
}
