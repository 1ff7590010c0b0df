#include "reckon/share.h"

#include <math.h>
#include <string.h>

#include "reckon/fresh.h"
#include "tables/serve_settle.h"

enum { TOP = DISTRIBUTION_POINTS - 1 };

/* a share while its middles are summed */
struct outlining {
    const struct shares *shares;
    const struct limit_case *limit_case;
    const uint8_t *ways;
    struct share *out;
    struct moments known, absent;
    bool bounded; /* the moments are those of all of it */
};

/* the group of an entry that is absent and adds most to a column */
static enum group
group_lacking(const struct shares *s, size_t entry, size_t column)
{
    const struct content *groups = s->sheet->entries[entry].composition->groups;
    enum group most = column < GROUPS ? (enum group)column : 0;
    double adds = -1;
    for (enum group g = 0; g < GROUPS; g++) {
        const bool in = column == SITTING ? groups_in_sitting(group_sum(g)) && !groups_is_sum(g)
                                          : groups_is_part(g, (enum group)column);
        if (in && groups[g].bound > adds) {
            adds = groups[g].bound;
            most = g;
        }
    }
    return most;
}

static void
note_lack(struct outlining *m, size_t entry, const struct entry_amount *amount, double adds,
          bool none)
{
    struct lack *lack = &m->out->lack;
    if (!(adds > lack->adds))
        return;
    *lack = (struct lack){.load = amount->chief,
                          .group = group_lacking(m->shares, entry, m->limit_case->column),
                          .amount = none,
                          .adds = adds};
}

static void
note_chief(struct share *out, double mid, const struct load *l, double limit)
{
    out->mid += mid;
    if (mid > out->chief_part) {
        out->chief_part = mid;
        out->chief = l;
        out->limit = limit;
    }
}

static void
add_moments(struct moments *to, const struct entry_amount *amount, struct moments content,
            double per)
{
    const struct moments share = {per, 0};
    *to = moments_add(*to, moments_times(moments_times(amount->moments, content), share));
}

static void
add_entry(struct outlining *m, size_t entry, const struct entry_amount *amount, double limit)
{
    const struct content *c = shares_content(m->shares, entry, m->limit_case->column);
    const double per = 1 / (100 * limit);
    if (c->top > 0 && amount->grams > 0) {
        m->out->memory += amount->grams * fmin(c->memory, c->mid) * per;
        note_chief(m->out, amount->grams * c->mid / (100 * limit), amount->chief, limit);
        add_moments(&m->known, amount, c->known, per);
    }
    if (c->bound > 0 && amount->grams > 0 && !share_pinch(m->shares, entry, amount->grams)) {
        const struct moments most = {c->bound, 0};
        note_lack(m, entry, amount, amount->grams * c->bound * per, false);
        add_moments(&m->absent, amount, m->limit_case->serve == SIZE_MAX ? c->absent : most, per);
    }
    const double more = share_extra(m->shares, m->limit_case, entry, amount, limit);
    if (more > 0)
        note_lack(m, entry, amount, more, true);
    m->absent.mean += more;
}

/* grams against the writer's serve */
static void
add_served(struct outlining *m, const struct load *l)
{
    const double grams = limit_divisor(&shares_serve(m->shares, l)->grams);
    const struct entry_amount amount = {.chief = l};
    note_chief(m->out, l->grams / grams, l, grams);
    if (l->extra > 0)
        note_lack(m, l->entry, &amount, fmin(l->extra / grams, 1e6), true);
    m->bounded = false;
}

/* what has a serve counts over the whole portion by its composition, at most by its part of the
 * serve */
static void
add_capped(struct outlining *m, const struct load *l)
{
    const struct given_serve *serve = shares_serve(m->shares, l);
    const struct figure *limit = fresh_limit(m->shares, m->limit_case, l->entry, false);
    const double most =
        serve->no_limit ? share_unlimited() : l->grams / limit_divisor(&serve->grams);
    struct share one = {.mid = 0}, *out = m->out;
    struct outlining alone = *m;
    struct entry_amount amount = {.count = 0};
    if (limit == NULL)
        return;
    alone.out = &one;
    entry_amount_add(&amount, l);
    add_entry(&alone, l->entry, &amount, limit_divisor(limit));
    if (out->limit <= 0)
        out->limit = limit_divisor(limit);
    out->memory += one.memory;
    note_chief(out, fmin(one.mid, most), l, out->limit);
    if (one.lack.adds > out->lack.adds)
        out->lack = one.lack;
    m->bounded = false;
}

/* lines of a served food that have no serve, as dried fruit beside fresh, add the share of the
 * group that stands nearest by them; false: of none */
static bool
find_unserved(const struct shares *s, const struct limit_case *served, const uint8_t *ways,
              struct limit_case *of, struct share *nearest)
{
    *nearest = (struct share){.mid = 0};
    for (enum group g = 0; g < GROUPS; g++) {
        const struct limit_case c = {g, served->serve};
        struct share share;
        if (s->phase->groups[g].scope == SCOPE_PORTION || !shares_concern_any(s, &c) ||
            !limits_hold(s->phase, g, s->reads))
            continue;
        share_outline(s, &c, ways, &share);
        if (share.mid > nearest->mid) {
            *nearest = share;
            *of = c;
        }
    }
    return nearest->mid > 0;
}

static void
add_lines(struct outlining *m, size_t entry)
{
    const struct shares *s = m->shares;
    struct share *out = m->out;
    if (m->limit_case->column == SERVED ||
        !content_is_something(shares_content(s, entry, m->limit_case->column)))
        return;
    const struct entry_amount amount = shares_amount(s, entry, m->ways);
    const struct figure *limit =
        amount.count == 0 ? NULL : fresh_limit(s, m->limit_case, entry, out->fresh);
    if (limit == NULL)
        return;
    if (out->limit <= 0)
        out->limit = limit_divisor(limit);
    add_entry(m, entry, &amount, limit_divisor(limit));
}

static void
sum_middles(struct outlining *m)
{
    const struct shares *s = m->shares;
    const struct limit_case *c = m->limit_case;
    struct limit_case unserved;
    struct share nearest;
    for (size_t i = shares_first(s, c); i != SIZE_MAX; i = shares_next(s, c, i))
        add_lines(m, i);
    for (size_t i = shares_first(s, c); i != SIZE_MAX; i = shares_next(s, c, i))
        for (const struct load *l = s->sheet->entries[i].first; l != NULL; l = l->next) {
            if (shares_serve(s, l) == NULL || !shares_concern(s, c, l) ||
                !shares_taken(s, l, m->ways))
                continue;
            if (c->column == SERVED)
                add_served(m, l);
            else
                add_capped(m, l);
        }
    if (c->column == SERVED && find_unserved(s, c, m->ways, &unserved, &nearest))
        m->out->mid += nearest.mid;
}

/* what the one that is lacking may be, where so much of the limit is reached */
static void
note_allowed(struct share *out, double reached)
{
    struct lack *lack = &out->lack;
    if (lack->load != NULL && !lack->amount && lack->load->grams > 0 && out->limit > 0)
        lack->allows = fmax(1 - reached, 0) * out->limit * 100 / lack->load->grams;
}

static enum standing
standing_by(const struct shares *s, double chance)
{
    return chance > s->over_at    ? STANDING_OVER
           : chance > s->close_at ? STANDING_CLOSE
                                  : STANDING_WITHIN;
}

/* Absent contents at nothing and at their most: alike, that stands; within and close, close. Over
 * is said by what is known alone: what only the unknown could bring over is not known. */
static enum standing
standing_between(enum standing least, enum standing most)
{
    return least != STANDING_OVER && most == STANDING_OVER ? STANDING_UNKNOWN : most;
}

/* how a chance stands that the moments bound, whatever it is; false: they leave it open */
static bool
stand_by_moments(const struct shares *s, struct moments m, double limit, enum standing *out)
{
    const double off = limit - m.mean, square = off * off;
    const double far = square > 0 ? m.variance / (m.variance + square) : m.variance > 0;
    *out = standing_by(s, off >= 0 ? far : 1);
    return *out == standing_by(s, off >= 0 ? 0 : 1 - far);
}

static bool
stand_bounded(const struct shares *s, struct moments known, struct moments most, double limit,
              enum standing *out)
{
    enum standing least, greatest;
    if (!stand_by_moments(s, known, limit, &least) || !stand_by_moments(s, most, limit, &greatest))
        return false;
    *out = standing_between(least, greatest);
    return true;
}

/* what a dish that does not say how many portions it makes cannot be said to be */
static void
mind_portions(const struct shares *s, struct share *out)
{
    if (!s->sheet->dish->portions_known && out->standing != STANDING_WITHIN)
        out->standing = out->larger_standing = STANDING_UNKNOWN;
}

bool
share_outline(const struct shares *s, const struct limit_case *c, const uint8_t *ways,
              struct share *out)
{
    struct outlining m = {.shares = s, .limit_case = c, .ways = ways, .out = out, .bounded = true};
    memset(out, 0, sizeof *out);
    out->fresh = c->column == EXCESS_FRUCTOSE && c->serve != SIZE_MAX &&
                 limits_fresh(s->phase, EXCESS_FRUCTOSE, s->reads) != NULL &&
                 fresh_serve(s, c, ways);
    sum_middles(&m);
    if (out->mid > 0) {
        out->memory = fmin(out->memory / out->mid, 1);
        out->chief_part /= out->mid;
    }
    out->load = out->mid * out->limit;
    const double larger = s->sheet->larger;
    const struct moments most = moments_add(m.known, m.absent);
    bool decided = m.bounded && stand_bounded(s, m.known, most, 1, &out->standing);
    out->larger_standing = out->standing;
    if (decided && larger > 1)
        decided = stand_bounded(s, m.known, most, larger, &out->larger_standing);
    mind_portions(s, out);
    note_allowed(out, out->mid);
    return decided;
}

double
share_most(const struct shares *s, const struct limit_case *c)
{
    double most = 0;
    for (size_t i = shares_first(s, c); i != SIZE_MAX; i = shares_next(s, c, i))
        for (const struct load *l = s->sheet->entries[i].first; l != NULL; l = l->next) {
            if (c->column == SERVED) {
                if (shares_serve(s, l) == NULL)
                    return INFINITY;
                if (!shares_serve(s, l)->no_limit)
                    most += (l->amount.points[TOP] + l->extra) /
                            limit_divisor(&shares_serve(s, l)->grams);
                continue;
            }
            const struct figure *limit =
                shares_concern(s, c, l) ? fresh_limit(s, c, i, false) : NULL;
            const struct content *content = shares_content(s, i, c->column);
            if (limit != NULL)
                most += (l->amount.points[TOP] + l->extra) * (content->top + content->open) /
                        (100 * limit_divisor(limit));
        }
    return most;
}

void
share_stand(const struct shares *s, const struct share_sums *sums, struct share *out)
{
    const double larger = s->sheet->larger;
    const struct distribution most = distribution_sum(&sums->known, &sums->absent);
    out->chance = distribution_over(&sums->known, 1);
    out->most_chance = fmax(distribution_over(&most, 1), out->chance);
    out->standing = standing_between(standing_by(s, out->chance), standing_by(s, out->most_chance));
    out->larger_standing =
        larger <= 1 ? out->standing
                    : standing_between(standing_by(s, distribution_over(&sums->known, larger)),
                                       standing_by(s, distribution_over(&most, larger)));
    mind_portions(s, out);
}

void
share_reckon(const struct shares *s, const struct limit_case *c, const uint8_t *ways,
             const struct share_sums *fixed, struct share *out)
{
    struct share_sums sums, more;
    struct limit_case unserved;
    struct share nearest;
    share_outline(s, c, ways, out);
    struct share_way way = {ways, out->fresh, fixed};
    share_spread(s, c, &way, &sums);
    if (c->column == SERVED && find_unserved(s, c, ways, &unserved, &nearest)) {
        way.fresh = nearest.fresh;
        share_spread(s, &unserved, &way, &more);
        sums.known = distribution_sum(&sums.known, &more.known);
    }
    share_stand(s, &sums, out);
    out->spread = sums.known;
    out->mid = distribution_quantile(&out->spread, 0.5);
    out->load = out->mid * out->limit;
    note_allowed(out, distribution_quantile(&out->spread, 1 - s->close_at));
}

double
share_greatest(struct arena *a, const struct shares *s, const struct limit_case *c, double beyond)
{
    struct share_sums sums;
    share_spread_most(a, s, c, &sums);
    const struct distribution most = distribution_sum(&sums.known, &sums.absent);
    return distribution_quantile(&most, 1 - beyond);
}
