#include "reckon/limit_stand.h"

#include <math.h>

#include "reckon/limit_ways.h"

/* with more ways to settle what one limit hangs on, its extremes alone are reckoned */
enum { SETTLED_MOST = 128 };

bool
limit_stand_holds(const struct shares *s, const struct limit_case *c)
{
    if (!shares_concern_any(s, c))
        return false;
    if (c->column == SERVED)
        return true;
    return c->column == SITTING ? limits_sitting(s->phase, s->reads) != NULL
                                : limits_hold(s->phase, (enum group)c->column, s->reads);
}

/* whether what a row brings matters to a case */
static bool
touches(const struct shares *s, const struct limit_case *c, const struct sheet_row *row)
{
    /* another group of the same serve decides on the allowance for fresh produce */
    const bool all = c->column == EXCESS_FRUCTOSE || c->column == SITTING;
    for (size_t w = 0; w < row->count; w++)
        for (size_t k = 0; k < row->ways[w].count; k++) {
            const struct sheet_entry *e = &s->sheet->entries[row->ways[w].loads[k].entry];
            const unsigned any = e->composition->known | e->composition->open;
            if (c->serve != SIZE_MAX && e->serve != c->serve)
                continue;
            if (c->column == SERVED || (all ? any : any & 1u << c->column) != 0)
                return true;
        }
    return false;
}

static void
find_rows(struct arena *a, const struct shares *s, struct limit_stand *out)
{
    out->way_count = 1;
    for (size_t i = 0; i < s->sheet->count; i++)
        if (s->sheet->rows[i].count > 1 && touches(s, &out->of, &s->sheet->rows[i])) {
            if (out->rows == NULL)
                out->rows = arena_take_raw(a, (s->sheet->count + 1) * sizeof *out->rows);
            out->rows[out->row_count++] = i;
            out->way_count *= (double)s->sheet->rows[i].count;
        }
}

bool
limit_stand_worse(const struct share *one, const struct share *other)
{
    if (one->standing != other->standing)
        return one->standing > other->standing;
    return one->mid > other->mid;
}

bool
limit_stand_next(const struct sheet *s, const size_t *rows, size_t count, uint8_t *ways)
{
    for (size_t k = count; k-- > 0;) {
        if (++ways[rows[k]] < s->rows[rows[k]].count)
            return true;
        ways[rows[k]] = 0;
    }
    return false;
}

enum standing
limit_stand_at(const struct sheet *s, const struct limit_stand *l, const uint8_t *ways, bool larger)
{
    size_t at = 0;
    if (l->resolved == NULL)
        return larger ? l->best_standing : l->standing;
    for (size_t k = 0; k < l->row_count; k++)
        at = at * s->rows[l->rows[k]].count + ways[l->rows[k]];
    return l->resolved[2 * at + larger];
}

/* settles a limit's rows in the way of a number */
static void
set_ways(const struct sheet *s, const struct limit_stand *l, size_t at, uint8_t *ways)
{
    for (size_t k = l->row_count; k-- > 0;) {
        const size_t count = s->rows[l->rows[k]].count;
        ways[l->rows[k]] = (uint8_t)(at % count);
        at /= count;
    }
}

/* what a way of one ingredient brings, middle and what is open */
static double
way_brings(const struct shares *s, const struct limit_case *c, const struct sheet_way *way)
{
    double brings = 0;
    for (size_t k = 0; k < way->count; k++) {
        const struct load *l = &way->loads[k];
        if (c->serve != SIZE_MAX && s->sheet->entries[l->entry].serve != c->serve)
            continue;
        if (c->column == SERVED) {
            brings += l->grams;
            continue;
        }
        const struct content *content = shares_content(s, l->entry, c->column);
        brings += l->grams * (content->mid + content->bound * 1e-3);
        if (l->extra > 0)
            brings += fmin(l->extra, 1e3) * (content->mid + content->bound) * 1e-3;
    }
    return brings;
}

/* each row's way that brings most (or least) of a limit */
static void
extreme_ways(const struct shares *s, const struct limit_stand *l, double sign, uint8_t *ways)
{
    for (size_t k = 0; k < l->row_count; k++) {
        const struct sheet_row *row = &s->sheet->rows[l->rows[k]];
        double most = -INFINITY;
        for (size_t w = 0; w < row->count; w++) {
            const double brings = sign * way_brings(s, &l->of, &row->ways[w]);
            if (brings > most) {
                most = brings;
                ways[l->rows[k]] = (uint8_t)w;
            }
        }
    }
}

/* the ways of one limit while they are reckoned */
struct reckoning {
    struct shares *shares;
    struct limit_stand *limit;
    uint8_t *ways;
    struct share_sums fixed;
    bool has_fixed;
};

/* what no choice touches, once */
static const struct share_sums *
fixed_of(struct arena *a, struct reckoning *r)
{
    const struct limit_case *c = &r->limit->of;
    if (c->serve != SIZE_MAX || r->limit->row_count == 0)
        return NULL;
    if (!r->has_fixed)
        share_spread_fixed(a, r->shares, c, r->ways, &r->fixed);
    r->has_fixed = true;
    return &r->fixed;
}

static void
reckon_whole(struct arena *a, struct reckoning *r, struct share *out)
{
    if (r->limit->of.column == SITTING)
        shares_build_sitting(r->shares);
    share_reckon(r->shares, &r->limit->of, r->ways, fixed_of(a, r), out);
}

static void
settle(struct limit_stand *l)
{
    l->standing = l->worst.standing;
    l->best_standing = l->best.larger_standing;
}

/* of ways that were told apart by the sums of their middles the median may say otherwise */
static void
order_ends(struct limit_stand *l)
{
    if (limit_stand_worse(&l->best, &l->worst) &&
        l->best.larger_standing >= l->worst.larger_standing) {
        const struct share worse = l->best;
        l->best = l->worst;
        l->worst = worse;
    }
    settle(l);
}

/* What is within at the very most is reckoned by its middles, which its shares then are exactly. */
static void
reckon_within(struct reckoning *r)
{
    struct limit_stand *l = r->limit;
    extreme_ways(r->shares, l, 1, r->ways);
    share_outline(r->shares, &l->of, r->ways, &l->worst);
    l->worst.standing = l->worst.larger_standing = STANDING_WITHIN;
    l->worst.spread = distribution_exact(l->worst.mid);
    l->best = l->worst;
    if (l->row_count > 0) {
        extreme_ways(r->shares, l, -1, r->ways);
        share_outline(r->shares, &l->of, r->ways, &l->best);
        l->best.standing = l->best.larger_standing = STANDING_WITHIN;
        l->best.spread = distribution_exact(l->best.mid);
    }
    settle(l);
}

static void
reckon_extremes(struct arena *a, struct reckoning *r)
{
    struct limit_stand *l = r->limit;
    extreme_ways(r->shares, l, 1, r->ways);
    reckon_whole(a, r, &l->worst);
    extreme_ways(r->shares, l, -1, r->ways);
    reckon_whole(a, r, &l->best);
    order_ends(l);
}

/* how each way stands by its moments, where these decide; its middle */
static bool
outline_all(struct reckoning *r, double *middles)
{
    struct limit_stand *l = r->limit;
    bool decided = true;
    size_t at = 0;
    do {
        struct share share;
        const bool one = share_outline(r->shares, &l->of, r->ways, &share);
        l->resolved[2 * at] = one ? share.standing : LIMIT_WAYS_OPEN;
        l->resolved[2 * at + 1] = one ? share.larger_standing : LIMIT_WAYS_OPEN;
        middles[at++] = share.mid;
        decided = decided && one;
    } while (limit_stand_next(r->shares->sheet, l->rows, l->row_count, r->ways));
    return decided;
}

/* those that are left, of a limit that bounds do not tell of */
static void
reckon_open(struct arena *a, struct reckoning *r)
{
    struct limit_stand *l = r->limit;
    size_t at = 0;
    do {
        struct share share;
        if (l->resolved[2 * at] == LIMIT_WAYS_OPEN) {
            reckon_whole(a, r, &share);
            l->resolved[2 * at] = share.standing;
            l->resolved[2 * at + 1] = share.larger_standing;
        }
        at++;
    } while (limit_stand_next(r->shares->sheet, l->rows, l->row_count, r->ways));
}

/* the ways that stand worst and best, and among these bring most and least, whole */
static void
reckon_ends(struct arena *a, struct reckoning *r, const double *middles)
{
    struct limit_stand *l = r->limit;
    const enum standing *resolved = l->resolved;
    size_t worst = 0, best = 0;
    for (size_t at = 1; at < (size_t)l->way_count; at++) {
        const enum standing one = resolved[2 * at], other = resolved[2 * at + 1];
        if (one > resolved[2 * worst] ||
            (one == resolved[2 * worst] && middles[at] > middles[worst]))
            worst = at;
        if (other < resolved[2 * best + 1] ||
            (other == resolved[2 * best + 1] && middles[at] < middles[best]))
            best = at;
    }
    set_ways(r->shares->sheet, l, worst, r->ways);
    reckon_whole(a, r, &l->worst);
    set_ways(r->shares->sheet, l, best, r->ways);
    if (best != worst)
        reckon_whole(a, r, &l->best);
    else
        l->best = l->worst;
    order_ends(l);
}

static void
reckon_all(struct arena *a, struct reckoning *r)
{
    struct limit_stand *l = r->limit;
    const size_t count = (size_t)l->way_count;
    double *middles = arena_take_raw(a, count * sizeof *middles);
    l->resolved = arena_take_raw(a, count * 2 * sizeof *l->resolved);
    if (!outline_all(r, middles)) {
        if (l->of.column == SITTING)
            shares_build_sitting(r->shares);
        struct limit_ways ways = {l->rows, l->row_count, count, l->resolved, fixed_of(a, r)};
        if (l->of.serve == SIZE_MAX && !limit_ways_twice(r->shares, &l->of))
            limit_ways_resolve(a, r->shares, &l->of, &ways);
        else
            reckon_open(a, r);
    }
    reckon_ends(a, r, middles);
}

static void
reckon_single(struct arena *a, struct reckoning *r)
{
    struct limit_stand *l = r->limit;
    reckon_whole(a, r, &l->worst);
    l->best = l->worst;
    l->resolved = arena_take_raw(a, 2 * sizeof *l->resolved);
    l->resolved[0] = l->worst.standing;
    l->resolved[1] = l->worst.larger_standing;
    settle(l);
}

void
limit_stand_reckon(struct arena *a, struct shares *s, const struct limit_case *c,
                   struct limit_stand *out)
{
    struct reckoning r = {.shares = s, .limit = out};
    *out = (struct limit_stand){.of = *c};
    r.ways = arena_take_array(a, s->sheet->count + 1, 1);
    find_rows(a, s, out);
    if (share_most(s, c) <= 1)
        reckon_within(&r);
    else if (out->row_count == 0)
        reckon_single(a, &r);
    else if (out->way_count > SETTLED_MOST)
        reckon_extremes(a, &r);
    else
        reckon_all(a, &r);
}

bool
limit_stand_may_keep(struct arena *a, const struct shares *s, const struct limit_case *c,
                     enum standing most, bool *decided)
{
    struct limit_stand l = {.of = *c};
    struct share share;
    *decided = true;
    if (!limit_stand_holds(s, c) || share_most(s, c) <= 1)
        return true;
    uint8_t *ways = arena_take_array(a, s->sheet->count + 1, 1);
    find_rows(a, s, &l);
    extreme_ways(s, &l, 1, ways);
    *decided = share_outline(s, c, ways, &share) && l.row_count == 0;
    if (*decided)
        return share.standing <= most;
    /* passed by its middle alone, so that no spread could bring it back: what is within has a
     * chance of a fifth at most, what is not over one of a half */
    return share.mid <= (most == STANDING_WITHIN ? 1 : 1.25);
}

bool
limit_stand_keeps(struct arena *a, struct shares *s, const struct limit_case *c, enum standing most)
{
    struct limit_stand l = {.of = *c};
    struct reckoning r = {.shares = s, .limit = &l};
    if (!limit_stand_holds(s, c) || share_most(s, c) <= 1)
        return true;
    r.ways = arena_take_array(a, s->sheet->count + 1, 1);
    find_rows(a, s, &l);
    if (l.way_count > SETTLED_MOST) {
        reckon_extremes(a, &r);
        return l.standing <= most;
    }
    do {
        if (!share_outline(s, c, r.ways, &l.worst))
            reckon_whole(a, &r, &l.worst);
        if (l.worst.standing > most)
            return false;
    } while (limit_stand_next(s->sheet, l.rows, l.row_count, r.ways));
    return true;
}
