#include "reckon/share.h"

#include <math.h>
#include <string.h>

#include "reckon/fresh.h"
#include "tables/serve_settle.h"

/* g of a dried herb or spice in a portion that is no ground for not knowing */
static const double SEASONING_GRAMS = 0.5;
/* the part of what a portion may hold that a food of a serve without limit counts for at most */
static const double UNLIMITED_PART = 0.5;
/* the largest share of what is pooled: in a sum over many foods small parts count by their moments,
 * together as one log-normal; what is larger counts with its own shape */
static const double SMALL = SHARE_POOLED;

enum { TOP = DISTRIBUTION_POINTS - 1 };

static double
content_memory(const struct content *c)
{
    return c->figure != NULL &&
                   (c->figure->basis == BASIS_MEMORY || c->figure->basis == BASIS_PRACTICE)
               ? c->mid
               : 0;
}

/* the part of a content that figures from memory or practice make, 0 to 1 */
static double
memory_part(const struct shares *s, size_t entry, size_t column)
{
    const struct content *groups = s->sheet->entries[entry].composition.groups;
    const double mid = shares_content(s, entry, column)->mid;
    double memory = 0;
    if (mid <= 0)
        return 0;
    if (column < GROUPS && groups[column].figure != NULL)
        return content_memory(&groups[column]) / mid;
    for (enum group g = 0; g < GROUPS; g++)
        if (column == SITTING ? group_in_sitting(g) : group_is_part(g, (enum group)column))
            memory += memory_part(s, entry, g) * groups[g].mid;
    return fmin(memory / mid, 1);
}

/* the group of an entry that is absent and adds most to a column */
static enum group
group_lacking(const struct shares *s, size_t entry, size_t column)
{
    const struct content *groups = s->sheet->entries[entry].composition.groups;
    enum group most = column < GROUPS ? (enum group)column : 0;
    double adds = -1;
    for (enum group g = 0; g < GROUPS; g++) {
        const bool in = column == SITTING ? group_in_sitting(group_sum(g)) && !group_is_sum(g)
                                          : group_is_part(g, (enum group)column);
        if (in && groups[g].bound > adds) {
            adds = groups[g].bound;
            most = g;
        }
    }
    return most;
}

/* what the entries of a case bring, while it is summed */
struct summing {
    const struct shares *shares;
    const struct limit_case *limit_case;
    struct share *out;
    struct distribution absent;           /* what is absent adds, at its most */
    struct moments pooled, pooled_absent; /* what is small, of both */
    bool whole;                           /* over all foods of the portion */
    bool plain;                           /* by middles alone */
};

static void
note_lack(struct summing *m, size_t entry, const struct entry_amount *amount, double adds,
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

static struct distribution
known_spread(const struct summing *m, size_t entry)
{
    const size_t column = m->limit_case->column;
    return column == SITTING ? m->shares->sitting[entry].spread
                             : composition_spread(&m->shares->sheet->entries[entry].composition,
                                                  (enum group)column);
}

/* Over many foods not everything absent is at its most at once: each enters with the spread of its
 * estimate. Of one food it is its bound. */
static struct distribution
absent_spread(const struct summing *m, size_t entry)
{
    const size_t column = m->limit_case->column;
    if (!m->whole)
        return distribution_exact(shares_content(m->shares, entry, column)->bound);
    return column == SITTING ? m->shares->sitting[entry].estimate
                             : composition_estimate(&m->shares->sheet->entries[entry].composition,
                                                    (enum group)column);
}

static bool
is_pooled(const struct summing *m, const struct entry_amount *amount, double top, double per)
{
    return m->whole && amount->spread.points[TOP] * top * per <= SMALL;
}

static void
pool(struct moments *to, const struct entry_amount *amount, struct moments content, double per)
{
    const struct moments share = {per, 0};
    content = moments_times(moments_times(amount->moments, content), share);
    *to = moments_add(*to, content);
}

/* adds what so much of a content comes to, with its own shape */
static void
add_product(struct distribution *to, const struct entry_amount *amount,
            const struct distribution *content, double per)
{
    struct distribution d = distribution_product(&amount->spread, content);
    d = distribution_scale(&d, per);
    *to = distribution_sum(to, &d);
}

static void
add_known(struct summing *m, size_t entry, const struct entry_amount *amount, double limit)
{
    const struct content *c = shares_content(m->shares, entry, m->limit_case->column);
    struct share *out = m->out;
    const double mid = amount->grams * c->mid / (100 * limit), per = 1 / (100 * limit);
    out->memory += mid * memory_part(m->shares, entry, m->limit_case->column);
    out->mid += mid;
    if (mid > out->chief_part) {
        out->chief_part = mid;
        out->chief = amount->chief;
        out->limit = limit;
    }
    if (m->plain)
        return;
    if (is_pooled(m, amount, c->top, per)) {
        pool(&m->pooled, amount, c->known, per);
        return;
    }
    const struct distribution known = known_spread(m, entry);
    add_product(&out->spread, amount, &known, per);
}

static void
add_absent(struct summing *m, size_t entry, const struct entry_amount *amount, double per)
{
    const struct content *c = shares_content(m->shares, entry, m->limit_case->column);
    note_lack(m, entry, amount, amount->grams * c->bound * per, false);
    if (m->plain)
        return;
    if (is_pooled(m, amount, c->open, per)) {
        pool(&m->pooled_absent, amount, c->absent, per);
        return;
    }
    const struct distribution absent = absent_spread(m, entry);
    add_product(&m->absent, amount, &absent, per);
}

static void
add_entry(struct summing *m, size_t entry, const struct entry_amount *amount, double limit)
{
    const struct content *c = shares_content(m->shares, entry, m->limit_case->column);
    const struct food *food = m->shares->sheet->entries[entry].food;
    const bool pinch = food != NULL && food->seasoning && amount->grams <= SEASONING_GRAMS;
    const double per = 1 / (100 * limit);
    if (c->top > 0 && amount->grams > 0)
        add_known(m, entry, amount, limit);
    if (c->bound > 0 && amount->grams > 0 && !pinch)
        add_absent(m, entry, amount, per);
    if (amount->extra > 0 && !(pinch && isfinite(amount->extra))) {
        const double more = fmin(amount->extra * (c->top + c->bound) * per, 1e6);
        struct distribution extra = distribution_exact(more);
        m->absent = distribution_sum(&m->absent, &extra);
        note_lack(m, entry, amount, more, true);
    }
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

static void
stand(const struct shares *s, struct summing *m)
{
    struct share *out = m->out;
    const double larger = s->sheet->larger;
    const struct distribution most = distribution_sum(&out->spread, &m->absent);
    out->chance = distribution_over(&out->spread, 1);
    out->most_chance = fmax(distribution_over(&most, 1), out->chance);
    out->shared = distribution_quantile(&most, 1 - s->close_at / 2);
    out->standing = standing_between(standing_by(s, out->chance), standing_by(s, out->most_chance));
    out->larger_standing =
        larger <= 1 ? out->standing
                    : standing_between(standing_by(s, distribution_over(&out->spread, larger)),
                                       standing_by(s, distribution_over(&most, larger)));
    const double allowed = 1 - distribution_quantile(&out->spread, 1 - s->close_at);
    if (out->lack.load != NULL && !out->lack.amount && out->lack.load->grams > 0 && out->limit > 0)
        out->lack.allows = fmax(allowed, 0) * out->limit * 100 / out->lack.load->grams;
    if (!s->sheet->dish->portions_known && out->standing != STANDING_WITHIN)
        out->standing = out->larger_standing = STANDING_UNKNOWN;
}

/* grams against the writer's serve */
static void
add_served(struct summing *m, const struct load *l)
{
    struct share *out = m->out;
    const double grams = limit_divisor(&shares_serve(m->shares, l)->grams);
    out->mid += l->grams / grams;
    if (l->grams / grams > out->chief_part) {
        out->chief_part = l->grams / grams;
        out->chief = l;
        out->limit = grams;
    }
    if (m->plain)
        return;
    struct distribution spread = distribution_scale(&l->amount, 1 / grams);
    out->spread = distribution_sum(&out->spread, &spread);
    if (l->extra > 0) {
        const struct entry_amount amount = {.chief = l};
        struct distribution extra = distribution_exact(fmin(l->extra / grams, 1e6));
        m->absent = distribution_sum(&m->absent, &extra);
        note_lack(m, l->entry, &amount, fmin(l->extra / grams, 1e6), true);
    }
}

static void
cap(struct distribution *of, const struct distribution *most)
{
    for (size_t k = 0; k <= TOP; k++)
        of->points[k] = fmin(of->points[k], most->points[k]);
}

/* What has a serve counts over the whole portion by its composition, at most by its part of the
 * serve; without limit, at most by half of what a portion may hold. */
static void
add_capped(struct summing *m, const struct load *l)
{
    const struct given_serve *serve = shares_serve(m->shares, l);
    const struct figure *limit = fresh_limit(m->shares, m->limit_case, l->entry, false);
    struct share one = {.mid = 0}, *out = m->out;
    struct summing alone = *m;
    struct entry_amount amount = {.fresh = true};
    const double part = serve->no_limit ? 0 : 1 / limit_divisor(&serve->grams);
    if (limit == NULL)
        return;
    alone.out = &one;
    alone.absent = distribution_exact(0);
    entry_amount_add(&amount, l, m->plain);
    add_entry(&alone, l->entry, &amount, limit_divisor(limit));
    shares_add_pooled(&one.spread, alone.pooled);
    shares_add_pooled(&alone.absent, alone.pooled_absent);
    const struct distribution most =
        serve->no_limit ? distribution_exact(UNLIMITED_PART) : distribution_scale(&l->amount, part);
    cap(&one.spread, &most);
    cap(&alone.absent, &most);
    one.mid = fmin(one.mid, serve->no_limit ? UNLIMITED_PART : l->grams * part);
    out->mid += one.mid;
    out->memory += one.memory;
    if (out->limit <= 0)
        out->limit = limit_divisor(limit);
    if (one.mid > out->chief_part) {
        out->chief_part = one.mid;
        out->chief = l;
    }
    if (one.lack.adds > out->lack.adds && alone.absent.points[TOP] > 0)
        out->lack = one.lack;
    out->spread = distribution_sum(&out->spread, &one.spread);
    m->absent = distribution_sum(&m->absent, &alone.absent);
}

/* lines of the same food that have no serve, as dried fruit beside fresh, add the share of the
 * group that stands nearest by them */
static void
add_unserved(struct summing *m, const uint8_t *ways)
{
    const struct shares *s = m->shares;
    struct share nearest = {.mid = 0};
    for (enum group g = 0; g < GROUPS; g++) {
        const struct limit_case c = {g, m->limit_case->serve};
        struct share share;
        if (s->phase->groups[g].scope == SCOPE_PORTION || !share_concerns(s, &c) ||
            !limit_holds(s->phase, g, s->reads))
            continue;
        share_reckon(s, &c, ways, false, &share);
        if (share.mid > nearest.mid)
            nearest = share;
    }
    if (nearest.mid <= 0)
        return;
    m->out->mid += nearest.mid;
    m->out->spread = distribution_sum(&m->out->spread, &nearest.spread);
}

static void
sum_entries(struct summing *m, const uint8_t *ways)
{
    const struct shares *s = m->shares;
    const struct limit_case *c = m->limit_case;
    for (size_t i = 0; c->column != SERVED && i < s->sheet->entry_count; i++) {
        if (!shares_hold(s, c, i) || !content_is_something(shares_content(s, i, c->column)))
            continue;
        const struct entry_amount amount = shares_amount(s, i, ways, m->plain);
        if (amount.count == 0)
            continue;
        const struct figure *limit = fresh_limit(s, c, i, m->out->fresh);
        if (limit == NULL)
            continue;
        if (m->out->limit <= 0)
            m->out->limit = limit_divisor(limit);
        add_entry(m, i, &amount, limit_divisor(limit));
    }
    shares_add_pooled(&m->out->spread, m->pooled);
    shares_add_pooled(&m->absent, m->pooled_absent);
    m->pooled = m->pooled_absent = (struct moments){0, 0};
    for (size_t i = 0; i < s->sheet->load_count; i++) {
        const struct load *l = &s->sheet->loads[i];
        if (shares_serve(s, l) == NULL || !shares_concern(s, c, l) || !shares_taken(s, l, ways))
            continue;
        if (c->column == SERVED)
            add_served(m, l);
        else
            add_capped(m, l);
    }
    if (c->column == SERVED)
        add_unserved(m, ways);
}

double
share_most(const struct shares *s, const struct limit_case *c)
{
    double most = 0;
    for (size_t i = 0; i < s->sheet->load_count; i++) {
        const struct load *l = &s->sheet->loads[i];
        if (c->column == SERVED && shares_hold(s, c, l->entry)) {
            if (shares_serve(s, l) == NULL)
                return INFINITY;
            if (!shares_serve(s, l)->no_limit)
                most +=
                    (l->amount.points[TOP] + l->extra) / limit_divisor(&shares_serve(s, l)->grams);
        }
        if (c->column == SERVED || !shares_concern(s, c, l))
            continue;
        const struct content *content = shares_content(s, l->entry, c->column);
        const struct figure *limit = fresh_limit(s, c, l->entry, false);
        if (limit != NULL)
            most += (l->amount.points[TOP] + l->extra) * (content->top + content->open) /
                    (100 * limit_divisor(limit));
    }
    return most;
}

void
share_reckon(const struct shares *s, const struct limit_case *c, const uint8_t *ways, bool plain,
             struct share *out)
{
    struct summing m = {
        .shares = s, .limit_case = c, .out = out, .whole = c->serve == SIZE_MAX, .plain = plain};
    memset(out, 0, sizeof *out);
    out->fresh = c->column == EXCESS_FRUCTOSE && c->serve != SIZE_MAX &&
                 limit_fresh(s->phase, EXCESS_FRUCTOSE, s->reads) != NULL &&
                 fresh_serve(s, c, ways);
    sum_entries(&m, ways);
    if (out->mid > 0) {
        out->memory /= out->mid;
        out->chief_part /= out->mid;
    }
    if (plain)
        out->spread = distribution_exact(out->mid);
    out->mid = distribution_quantile(&out->spread, 0.5);
    out->load = out->mid * out->limit;
    stand(s, &m);
}

/* point by point the larger, or the smaller */
static void
take_extreme(struct distribution *of, const struct distribution *other, int sign)
{
    for (size_t k = 0; k <= TOP; k++)
        of->points[k] = sign * fmax(sign * of->points[k], sign * other->points[k]);
}

void
share_bound(const struct shares *s, const struct limit_case *c, const size_t *rows, size_t count,
            int sign, struct share *out)
{
    uint8_t ways[UINT8_MAX + 1] = {0};
    struct summing m = {.shares = s, .limit_case = c, .out = out, .whole = true};
    memset(out, 0, sizeof *out);
    for (size_t k = 0; k < count; k++)
        ways[rows[k]] = WAY_NONE;
    sum_entries(&m, ways);
    memset(ways, WAY_NONE, sizeof ways);
    for (size_t k = 0; k < count; k++) {
        struct distribution known, absent;
        for (size_t w = 0; w < s->sheet->rows[rows[k]].count; w++) {
            struct share one = {.mid = 0};
            struct summing way = {.shares = s, .limit_case = c, .out = &one, .whole = true};
            ways[rows[k]] = (uint8_t)w;
            sum_entries(&way, ways);
            if (w == 0) {
                known = one.spread;
                absent = way.absent;
            }
            take_extreme(&known, &one.spread, sign);
            take_extreme(&absent, &way.absent, sign);
        }
        ways[rows[k]] = WAY_NONE;
        out->spread = distribution_sum(&out->spread, &known);
        m.absent = distribution_sum(&m.absent, &absent);
    }
    stand(s, &m);
}
