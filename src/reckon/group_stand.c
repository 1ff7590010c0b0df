#include "reckon/group_stand.h"

#include <math.h>

struct span
group_stand_span(const struct share *s)
{
    return (struct span){distribution_quantile(&s->spread, 0.05), s->mid,
                         distribution_quantile(&s->spread, 0.95)};
}

/* what a load brings of a group: middle and widths, those of amount and content as independent */
static double
load_widths(const struct sheet *s, const struct load *l, enum group g, struct widths *out)
{
    const struct composition *c = s->entries[l->entry].composition;
    const double content = c->groups[g].mid;
    *out = (struct widths){0, 0};
    if (c->groups[g].top <= 0 || l->grams <= 0)
        return 0;
    const struct widths amount = l->widths, held = c->groups[g].widths;
    const struct widths by_amount = {amount.below * content / 100, amount.above * content / 100};
    const struct widths by_content = {held.below * l->grams / 100, held.above * l->grams / 100};
    *out = widths_beside(by_amount, by_content);
    return l->grams * content / 100;
}

/* g of a group over the whole portion: middles add up, and their widths as independent ones do */
static struct span
group_load(const struct sheet *s, enum group g, bool worst, size_t *chief, double *chief_part)
{
    double mid = 0, most = 0;
    struct widths all = {0, 0};
    *chief = SIZE_MAX;
    for (size_t i = 0; i < s->count; i++) {
        double taken = 0;
        struct widths taken_widths = {0, 0};
        for (size_t w = 0; w < s->rows[i].count; w++) {
            double brings = 0;
            struct widths widths = {0, 0}, one;
            for (size_t k = 0; k < s->rows[i].ways[w].count; k++) {
                brings += load_widths(s, &s->rows[i].ways[w].loads[k], g, &one);
                widths = widths_beside(widths, one);
            }
            const double high = brings + widths.above, held = taken + taken_widths.above;
            if (w == 0 || (worst ? high > held : high < held)) {
                taken = brings;
                taken_widths = widths;
            }
        }
        mid += taken;
        all = widths_beside(all, taken_widths);
        if (taken + taken_widths.above * 1e-6 > most) {
            most = taken + taken_widths.above * 1e-6;
            *chief = i;
        }
    }
    *chief_part = mid > 0 ? fmin(most / mid, 1) : 0;
    return (struct span){fmax(mid - all.below, 0), mid, mid + all.above};
}

void
group_stand_reckon(const struct sheet *s, enum group g, const struct limit_stand *limits,
                   size_t limit_count, struct group_stand *out)
{
    size_t chief;
    double part;
    out->unknown_ingredient = out->chief = SIZE_MAX;
    for (size_t i = limit_count; i-- > 0;) { /* the nearest last */
        const struct limit_stand *l = &limits[i];
        if (l->of.column != g)
            continue;
        out->limited = true;
        out->standing = l->standing;
        out->best_standing =
            l->best_standing > out->best_standing ? l->best_standing : out->best_standing;
        out->share = group_stand_span(&l->worst);
        out->best_share = group_stand_span(&l->best);
        out->limit = l->worst.limit;
        out->chance = l->worst.chance;
        out->fresh_allowance = l->worst.fresh && l->worst.mid > 0;
        out->trace_share = fmax(out->trace_share, l->worst.lack.adds);
        out->unknown = out->unknown || l->standing == STANDING_UNKNOWN;
        if (l->standing == STANDING_UNKNOWN && l->worst.lack.load != NULL)
            out->unknown_ingredient = l->worst.lack.load->ingredient;
    }
    if (!out->limited)
        return;
    out->load = group_load(s, g, true, &out->chief, &out->chief_share);
    out->best_load = group_load(s, g, false, &chief, &part);
    out->carried = out->load.high > 0;
}
