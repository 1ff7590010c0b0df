#include "reckon/share_spread.h"

#include <math.h>
#include <string.h>

#include "reckon/fresh.h"
#include "tables/serve_settle.h"

/* g of a dried herb or spice in a portion that is no ground for not knowing */
static const double SEASONING_GRAMS = 0.5;
/* the part of what a portion may hold that a food of a serve without limit counts for at most */
static const double UNLIMITED_PART = 0.5;
/* what hardly any limit could be passed by further */
static const double EXTRA_MOST = 1e6;

enum { TOP = DISTRIBUTION_POINTS - 1 };

/* what the entries of a case bring, while it is summed */
struct summing {
    const struct shares *shares;
    const struct limit_case *limit_case;
    struct share_sums *out;
    bool whole; /* over all foods of the portion */
};

double
share_unlimited(void)
{
    return UNLIMITED_PART;
}

bool
share_pinch(const struct shares *s, size_t entry, double grams)
{
    const struct food *food = s->sheet->entries[entry].food;
    return food != NULL && food->seasoning && grams <= SEASONING_GRAMS;
}

double
share_extra(const struct shares *s, const struct limit_case *c, size_t entry,
            const struct entry_amount *amount, double limit)
{
    const struct content *content = shares_content(s, entry, c->column);
    if (amount->extra <= 0 || (share_pinch(s, entry, amount->grams) && isfinite(amount->extra)))
        return 0;
    return fmin(amount->extra * (content->top + content->bound) / (100 * limit), EXTRA_MOST);
}

static struct distribution
known_spread(const struct summing *m, size_t entry)
{
    const size_t column = m->limit_case->column;
    return column == SITTING ? m->shares->sitting[entry]->spread
                             : composition_spread(m->shares->sheet->entries[entry].composition,
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
    return column == SITTING ? m->shares->sitting[entry]->estimate
                             : composition_estimate(m->shares->sheet->entries[entry].composition,
                                                    (enum group)column);
}

/* so much of an entry, and its spread */
struct entry_part {
    size_t entry;
    struct entry_amount amount;
    struct distribution spread;
    double limit; /* g */
};

/* adds what so much of a content comes to: small parts to the pool, others with their own shape */
static void
add_content(const struct summing *m, const struct entry_part *e, bool known)
{
    const struct content *c = shares_content(m->shares, e->entry, m->limit_case->column);
    const double per = 1 / (100 * e->limit), top = known ? c->top : c->open;
    struct share_sums *out = m->out;
    if (m->whole && e->spread.points[TOP] * top * per <= SHARE_POOLED) {
        const struct moments share = {per, 0};
        const struct moments all =
            moments_times(moments_times(e->amount.moments, known ? c->known : c->absent), share);
        struct moments *to = known ? &out->pooled : &out->pooled_absent;
        *to = moments_add(*to, all);
        return;
    }
    const struct distribution content =
        known ? known_spread(m, e->entry) : absent_spread(m, e->entry);
    struct distribution d = distribution_product(&e->spread, &content);
    struct distribution *to = known ? &out->known : &out->absent;
    d = distribution_scale(&d, per);
    *to = distribution_sum(to, &d);
}

static void
add_entry(struct summing *m, const struct entry_part *e)
{
    const struct content *c = shares_content(m->shares, e->entry, m->limit_case->column);
    const double grams = e->amount.grams;
    struct share_sums *out = m->out;
    if (c->top > 0 && grams > 0)
        add_content(m, e, true);
    if (c->bound > 0 && grams > 0 && !share_pinch(m->shares, e->entry, grams))
        add_content(m, e, false);
    const double more = share_extra(m->shares, m->limit_case, e->entry, &e->amount, e->limit);
    if (more > 0) {
        const struct distribution extra = distribution_exact(more);
        out->absent = distribution_sum(&out->absent, &extra);
    }
}

void
share_sums_empty(struct share_sums *sums)
{
    shares_add_pooled(&sums->known, sums->pooled);
    shares_add_pooled(&sums->absent, sums->pooled_absent);
    sums->pooled = sums->pooled_absent = (struct moments){0, 0};
}

/* grams against the writer's serve */
static void
add_served(struct summing *m, const struct load *l)
{
    const double grams = limit_divisor(&shares_serve(m->shares, l)->grams);
    const struct distribution spread = distribution_scale(&l->amount, 1 / grams);
    m->out->known = distribution_sum(&m->out->known, &spread);
    if (l->extra > 0) {
        const struct distribution extra = distribution_exact(fmin(l->extra / grams, EXTRA_MOST));
        m->out->absent = distribution_sum(&m->out->absent, &extra);
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
    struct share_sums one = {.pooled = {0, 0}};
    struct summing alone = *m;
    struct entry_part part = {.entry = l->entry, .spread = l->amount};
    if (limit == NULL)
        return;
    alone.out = &one;
    entry_amount_add(&part.amount, l);
    part.limit = limit_divisor(limit);
    add_entry(&alone, &part);
    share_sums_empty(&one);
    const struct distribution most =
        serve->no_limit ? distribution_exact(UNLIMITED_PART)
                        : distribution_scale(&l->amount, 1 / limit_divisor(&serve->grams));
    cap(&one.known, &most);
    cap(&one.absent, &most);
    m->out->known = distribution_sum(&m->out->known, &one.known);
    m->out->absent = distribution_sum(&m->out->absent, &one.absent);
}

/* the lines of an entry that a way takes */
static void
add_lines(struct summing *m, size_t entry, const struct share_way *way)
{
    const struct shares *s = m->shares;
    const struct limit_case *c = m->limit_case;
    if (c->column != SERVED && content_is_something(shares_content(s, entry, c->column))) {
        struct entry_part part = {.entry = entry, .amount = shares_amount(s, entry, way->ways)};
        const struct figure *limit = fresh_limit(s, c, entry, way->fresh);
        if (part.amount.count > 0 && limit != NULL) {
            part.spread = shares_amount_spread(s, entry, way->ways);
            part.limit = limit_divisor(limit);
            add_entry(m, &part);
        }
    }
    for (const struct load *l = s->sheet->entries[entry].first; l != NULL; l = l->next) {
        if (shares_serve(s, l) == NULL || !shares_concern(s, c, l) ||
            !shares_taken(s, l, way->ways))
            continue;
        if (c->column == SERVED)
            add_served(m, l);
        else
            add_capped(m, l);
    }
}

static bool
is_fixed(const struct sheet *s, size_t entry)
{
    for (const struct load *l = s->entries[entry].first; l != NULL; l = l->next)
        if (s->rows[l->ingredient].count > 1)
            return false;
    return true;
}

void
share_spread_fixed(struct arena *a, const struct shares *s, const struct limit_case *c,
                   const uint8_t *ways, struct share_sums *out)
{
    struct summing m = {.shares = s, .limit_case = c, .out = out, .whole = true};
    const struct share_way way = {.ways = ways};
    bool *entries = arena_take_array(a, s->sheet->entry_count + 1, sizeof *entries);
    *out = (struct share_sums){.entries = entries};
    for (size_t i = shares_first(s, c); i != SIZE_MAX; i = shares_next(s, c, i)) {
        entries[i] = is_fixed(s->sheet, i);
        if (entries[i])
            add_lines(&m, i, &way);
    }
}

void
share_spread(const struct shares *s, const struct limit_case *c, const struct share_way *way,
             struct share_sums *out)
{
    struct summing m = {.shares = s, .limit_case = c, .out = out, .whole = c->serve == SIZE_MAX};
    if (way->fixed != NULL)
        *out = *way->fixed;
    else
        *out = (struct share_sums){.entries = NULL};
    for (size_t i = shares_first(s, c); i != SIZE_MAX; i = shares_next(s, c, i))
        if (out->entries == NULL || !out->entries[i])
            add_lines(&m, i, way);
    share_sums_empty(out);
}

void
share_spread_way(const struct shares *s, const struct limit_case *c, const uint8_t *ways,
                 size_t row, struct share_sums *out)
{
    struct summing m = {.shares = s, .limit_case = c, .out = out, .whole = true};
    const struct share_way taken = {.ways = ways};
    const struct sheet_way *w = &s->sheet->rows[row].ways[ways[row]];
    *out = (struct share_sums){.entries = NULL};
    for (size_t k = 0; k < w->count; k++) {
        bool again = false;
        for (size_t j = 0; j < k; j++)
            again = again || w->loads[j].entry == w->loads[k].entry;
        if (!again)
            add_lines(&m, w->loads[k].entry, &taken);
    }
}

static void
take_extreme(struct distribution *of, const struct distribution *other, int sign)
{
    for (size_t k = 0; k <= TOP; k++)
        if (sign * other->points[k] > sign * of->points[k])
            of->points[k] = other->points[k];
}

void
share_sums_envelope(struct share_sums *of, const struct share_sums *other, int sign)
{
    take_extreme(&of->known, &other->known, sign);
    take_extreme(&of->absent, &other->absent, sign);
}

void
share_sums_add(struct share_sums *to, const struct share_sums *more)
{
    to->known = distribution_sum(&to->known, &more->known);
    to->absent = distribution_sum(&to->absent, &more->absent);
    to->pooled = moments_add(to->pooled, more->pooled);
    to->pooled_absent = moments_add(to->pooled_absent, more->pooled_absent);
}

void
share_spread_most(struct arena *a, const struct shares *s, const struct limit_case *c,
                  struct share_sums *out)
{
    uint8_t *ways = arena_take_array(a, s->sheet->count + 1, 1);
    share_spread_fixed(a, s, c, ways, out);
    share_sums_empty(out);
    memset(ways, WAY_NONE, s->sheet->count);
    for (size_t i = 0; i < s->sheet->count; i++) {
        struct share_sums most = {.entries = NULL}, one;
        for (size_t w = 0; s->sheet->rows[i].count > 1 && w < s->sheet->rows[i].count; w++) {
            ways[i] = (uint8_t)w;
            share_spread_way(s, c, ways, i, &one);
            share_sums_empty(&one);
            share_sums_envelope(&most, &one, 1);
        }
        ways[i] = WAY_NONE;
        share_sums_add(out, &most);
    }
}
