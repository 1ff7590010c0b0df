#include "reckon/portion.h"

#include <math.h>
#include <string.h>

enum { VARIANTS_TRIED = 64, CHOICES_CLIMBED = 128, PASSES_MOST = 4 };

/* stands for a share without bound, so that differences stay numbers */
static const double UNBOUNDED = 1e6;

/* the four numbers that a column's standing hangs on, each extreme over a set of variants */
struct range {
    bool any; /* the set has a variant */
    double low, mid, high, upper;
};

enum quantity { Q_LOW, Q_MID, Q_HIGH, Q_UPPER, QUANTITIES };

struct best {
    const struct sheet *sheet;
    enum standing columns[COLUMNS];
    enum standing whole;
};

struct helping_load *
portion_loads(struct arena *a, const struct dish *d, const struct tables *t, int phase,
              struct reads *reads, size_t *count)
{
    struct sheet sheet;
    sheet_lay(a, d, t, phase, reads, &sheet);
    *count = sheet.helping_count;
    return sheet.helpings;
}

static double
way_quantity(const struct sheet_way *w, size_t column, bool fresh, enum quantity q)
{
    const struct span *share = fresh ? &w->fresh_share : &w->columns[column].share;
    switch (q) {
    case Q_LOW:
        return share->low;
    case Q_MID:
        return share->mid;
    case Q_HIGH:
        return share->high;
    default:
        return share->high + fmin(UNBOUNDED, fresh ? w->fresh_bound : w->columns[column].bound);
    }
}

/* the extreme of a quantity over the ways of a choice; `sign` 1 the most, -1 the least; `which`: 0
 * all ways, 1 those that leave fructose alone, 2 those that do not. NaN where there is no such way.
 */
static double
row_extreme(const struct sheet *s, size_t k, size_t column, enum quantity q, double sign, int which)
{
    const struct sheet_row *row = &s->rows[s->choices[k]];
    double extreme = NAN;
    for (size_t w = 0; w < row->count; w++) {
        if (which != 0 && way_alone(s, &row->ways[w]) != (which == 1))
            continue;
        double value = way_quantity(&row->ways[w], column, which == 1, q);
        if (isnan(extreme) || value * sign > extreme * sign)
            extreme = value;
    }
    return extreme;
}

static void
range_set(struct range *r, enum quantity q, double value)
{
    double *fields[QUANTITIES] = {&r->low, &r->mid, &r->high, &r->upper};
    *fields[q] = value;
}

static struct range
way_range(const struct sheet_way *w, size_t column)
{
    const struct span *share = &w->columns[column].share;
    const double bound = w->columns[column].bound;
    return (struct range){true, share->low, share->mid, share->high,
                          share->high + (bound < UNBOUNDED ? bound : UNBOUNDED)};
}

/* the further out of two numbers */
static double
outer(double a, double b, double sign)
{
    return b * sign > a * sign ? b : a;
}

/* The extremes of a column over all variants. Loads add up, so the most of a sum is the sum of each
 * row's most, and no variant need be listed. */
static struct range
range_all(const struct sheet *s, size_t column, double sign)
{
    struct range r = way_range(&s->fixed, column);
    for (size_t k = 0; k < s->choice_count; k++) {
        const struct sheet_row *row = &s->rows[s->choices[k]];
        if (!column_touched(row->touched, column))
            continue;
        struct range extreme = way_range(&row->ways[0], column);
        for (size_t w = 1; w < row->count; w++) {
            const struct range one = way_range(&row->ways[w], column);
            extreme.low = outer(extreme.low, one.low, sign);
            extreme.mid = outer(extreme.mid, one.mid, sign);
            extreme.high = outer(extreme.high, one.high, sign);
            extreme.upper = outer(extreme.upper, one.upper, sign);
        }
        r.low += extreme.low;
        r.mid += extreme.mid;
        r.high += extreme.high;
        r.upper += extreme.upper;
    }
    return r;
}

/* the same over the variants that carry nothing but excess fructose, by the fresh allowance */
static struct range
range_alone(const struct sheet *s, double sign)
{
    struct range r = {.any = s->fixed.alone};
    for (enum quantity q = Q_LOW; r.any && q < QUANTITIES; q++) {
        double sum = way_quantity(&s->fixed, EXCESS_FRUCTOSE, true, q);
        for (size_t k = 0; k < s->choice_count; k++)
            sum += row_extreme(s, k, EXCESS_FRUCTOSE, q, sign, 1);
        r.any = !isnan(sum);
        range_set(&r, q, sum);
    }
    return r;
}

/* ... and over those that carry another group: the extreme of all where a pick that reaches it
 * carries another; else what is least lost by making one pick do so */
static struct range
range_beside(const struct sheet *s, double sign)
{
    struct range r = {.any = true};
    for (enum quantity q = Q_LOW; r.any && q < QUANTITIES; q++) {
        double sum = way_quantity(&s->fixed, EXCESS_FRUCTOSE, false, q);
        double loss = s->fixed.alone ? INFINITY : 0;
        for (size_t k = 0; k < s->choice_count; k++) {
            double all = row_extreme(s, k, EXCESS_FRUCTOSE, q, sign, 0);
            double beside = row_extreme(s, k, EXCESS_FRUCTOSE, q, sign, 2);
            sum += all;
            if (!isnan(beside))
                loss = fmin(loss, fabs(all - beside));
        }
        r.any = loss < INFINITY;
        range_set(&r, q, loss > 0 ? sum - sign * loss : sum);
    }
    return r;
}

static struct range
range_join(struct range a, struct range b, double sign)
{
    if (!a.any || !b.any)
        return a.any ? a : b;
    return (struct range){
        true, sign * fmax(sign * a.low, sign * b.low), sign * fmax(sign * a.mid, sign * b.mid),
        sign * fmax(sign * a.high, sign * b.high), sign * fmax(sign * a.upper, sign * b.upper)};
}

static struct range
column_range(const struct sheet *s, size_t column, double sign, bool *fresh)
{
    if (column != EXCESS_FRUCTOSE)
        return range_all(s, column, sign);
    struct range alone = range_alone(s, sign), beside = range_beside(s, sign);
    *fresh = alone.any && (!beside.any || alone.mid >= beside.mid);
    return range_join(alone, beside, sign);
}

static struct span
range_span(const struct range *r)
{
    return (struct span){r->low, r->mid, r->high};
}

/* end by end the larger of two spans, or with sign -1 the smaller */
static struct span
span_extreme(struct span a, struct span b, double sign)
{
    return (struct span){sign * b.low > sign * a.low ? b.low : a.low,
                         sign * b.mid > sign * a.mid ? b.mid : a.mid,
                         sign * b.high > sign * a.high ? b.high : a.high};
}

static void
load_range(const struct sheet *s, size_t column, struct span *worst, struct span *best)
{
    *worst = *best = s->fixed.columns[column].load;
    for (size_t k = 0; k < s->choice_count; k++) {
        const struct sheet_row *row = &s->rows[s->choices[k]];
        if (!column_touched(row->touched, column))
            continue;
        struct span most = row->ways[0].columns[column].load, least = most;
        for (size_t w = 1; w < row->count; w++) {
            most = span_extreme(most, row->ways[w].columns[column].load, 1);
            least = span_extreme(least, row->ways[w].columns[column].load, -1);
        }
        *worst = span_add(*worst, most);
        *best = span_add(*best, least);
    }
}

/* the limit to show for a group: that of the helping that brings most of it */
struct shown_limit {
    double share, grams;
};

static void
show_limit(const struct sheet_row *row, enum group g, bool fresh, struct shown_limit *out)
{
    for (size_t k = 0; k < row->load_count; k++) {
        const struct helping_load *h = &row->loads[k];
        const struct brought *b = &h->columns[g];
        if (b->limit == NULL || (b->share.mid <= out->share && out->grams != 0))
            continue;
        out->share = b->share.mid;
        out->grams = (fresh && h->fresh && h->fresh_share.mid > 0)
                         ? b->load.mid / h->fresh_share.mid
                         : b->limit->span.mid;
    }
}

/* chief contributor, trace and unknown of a group, with the limit to show */
static void
name_contributors(const struct sheet *s, enum group g, struct group_stand *out)
{
    double chief = 0, whole = 0;
    struct shown_limit limit = {-1, 0};
    out->chief = out->unknown_ingredient = SIZE_MAX;
    for (size_t i = 0; i < s->count; i++) {
        const struct sheet_row *row = &s->rows[i];
        double most = 0, most_trace = 0;
        if (!column_touched(row->touched, g))
            continue;
        for (size_t w = 0; w < row->count; w++) {
            if (!column_touched(row->ways[w].touched, g))
                continue;
            const struct brought *b = &row->ways[w].columns[g];
            /* the high end decides between those whose mid is nothing */
            const double brings = b->share.mid + b->share.high * 1e-6;
            most = brings > most ? brings : most;
            if (b->bound <= 1 + 1e-9)
                most_trace = b->bound > most_trace ? b->bound : most_trace;
            else if (out->unknown_ingredient == SIZE_MAX)
                out->unknown_ingredient = i;
        }
        out->trace_share += most_trace;
        whole += most;
        if (most > chief) {
            chief = most;
            out->chief = i;
        }
        if ((row->limited >> g & 1) != 0)
            show_limit(row, g, out->fresh_allowance, &limit);
    }
    out->chief_share = whole > 0 ? chief / whole : 0;
    out->limit = limit.grams;
}

static void
stand_group(const struct sheet *s, enum group g, struct group_stand *out)
{
    if (!column_touched(s->touched, g)) {
        const struct span nothing = {0, 0, 0};
        out->standing = out->best_standing = variant_column(s, nothing, 0);
        out->chief = out->unknown_ingredient = SIZE_MAX;
        return;
    }
    load_range(s, g, &out->load, &out->best_load);
    out->limited = s->limited[g];
    out->carried = out->load.high > 0;
    bool best_fresh;
    struct range worst = column_range(s, g, 1, &out->fresh_allowance), best = worst;
    if (s->choice_count > 0) /* else there is one way alone */
        best = column_range(s, g, -1, &best_fresh);
    out->fresh_allowance = out->fresh_allowance && g == EXCESS_FRUCTOSE && out->carried;
    out->share = range_span(&worst);
    out->best_share = range_span(&best);
    out->standing = variant_column(s, out->share, worst.upper);
    out->best_standing = variant_column(s, out->best_share, best.upper);
    name_contributors(s, g, out);
    out->unknown = out->unknown_ingredient != SIZE_MAX || out->standing == STANDING_UNKNOWN;
    if (out->unknown && out->unknown_ingredient == SIZE_MAX)
        for (size_t i = 0; i < s->count && out->unknown_ingredient == SIZE_MAX; i++)
            for (size_t w = 0; w < s->rows[i].count; w++)
                if (s->rows[i].ways[w].columns[g].bound > 0)
                    out->unknown_ingredient = i;
}

void
sheet_column(const struct sheet *s, size_t column, struct span *share, double *upper)
{
    bool fresh;
    struct range r = {.any = true};
    if (column_touched(s->touched, column))
        r = column_range(s, column, 1, &fresh);
    *share = range_span(&r);
    *upper = r.upper;
}

static enum standing
worst_of(const struct sheet *s, double part, double *share)
{
    enum standing worst = STANDING_WITHIN;
    *share = 0;
    for (size_t c = 0; s->touched >> c != 0; c++) {
        bool fresh;
        if (!column_touched(s->touched, c))
            continue;
        struct range r = column_range(s, c, 1, &fresh);
        enum standing standing =
            variant_column(s, span_scale(range_span(&r), part), r.upper * part);
        worst = standing > worst ? standing : worst;
        *share = fmax(*share, r.mid * part);
    }
    return worst;
}

enum standing
sheet_worst(const struct sheet *s, double *share)
{
    return worst_of(s, 1, share);
}

enum standing
sheet_worst_of(const struct sheet *s, double part)
{
    double share;
    return worst_of(s, part, &share);
}

static void
best_note(void *ctx, const uint8_t *ways, const struct variant_stand *stand)
{
    struct best *best = ctx;
    (void)ways;
    for (size_t c = 0; c < COLUMNS; c++)
        if (stand->columns[c] < best->columns[c])
            best->columns[c] = stand->columns[c];
    if (stand->standing < best->whole)
        best->whole = stand->standing;
}

/* how far a variant is from standing better: for climbing down among too many variants to list */
static double
variant_weight(const struct variant_stand *v)
{
    double weight = (double)v->standing * 1e3;
    for (size_t c = 0; c < COLUMNS; c++)
        weight = fmax(weight, (double)v->standing * 1e3 + fmin(v->upper[c], 900));
    return weight;
}

/* the variant that carries least of a column */
static void
least_ways(const struct sheet *s, size_t column, uint8_t *ways)
{
    for (size_t i = 0; i < s->count; i++) {
        const struct sheet_row *row = &s->rows[i];
        ways[i] = 0;
        for (size_t w = 1; w < row->count; w++)
            if (way_quantity(&row->ways[w], column, false, Q_UPPER) <
                way_quantity(&row->ways[ways[i]], column, false, Q_UPPER))
                ways[i] = (uint8_t)w;
    }
}

/* with very many variants: from each row's least, row by row to a better one. What it finds is a
 * variant that exists, though perhaps not the best. */
static void
best_climb(struct arena *a, const struct sheet *s, struct best *best)
{
    uint8_t *ways = arena_take_array(a, s->count + 1, 1);
    struct variant_stand stand;
    for (size_t c = 0; c < COLUMNS; c++) {
        least_ways(s, c, ways);
        variant_reckon(s, ways, &stand);
        best_note(best, ways, &stand);
    }
    best_note(best, ways, &stand);
    if (s->choice_count > CHOICES_CLIMBED)
        return;
    double weight = variant_weight(&stand);
    for (int pass = 0, better = 1; better && pass < PASSES_MOST; pass++) {
        better = 0;
        for (size_t i = 0; i < s->count; i++)
            for (size_t w = 0; s->rows[i].count > 1 && w < s->rows[i].count; w++) {
                uint8_t was = ways[i];
                ways[i] = (uint8_t)w;
                variant_reckon(s, ways, &stand);
                best_note(best, ways, &stand);
                if (variant_weight(&stand) < weight - 1e-12) {
                    weight = variant_weight(&stand);
                    better = 1;
                } else {
                    ways[i] = was;
                }
            }
    }
}

void
sheet_stand(struct arena *a, const struct sheet *s, struct phase_stand *out)
{
    memset(out, 0, sizeof *out);
    out->tightest = -1;
    for (enum group g = 0; g < GROUPS; g++) {
        struct group_stand *group = &out->groups[g];
        stand_group(s, g, group);
        if (group->standing > out->standing)
            out->standing = group->standing;
        if (group->limited && group->share.high > 0 &&
            (out->tightest < 0 || group->share.mid > out->groups[out->tightest].share.mid))
            out->tightest = (int)g;
    }
    struct span least;
    struct range sitting = range_all(s, SITTING, 1);
    load_range(s, SITTING, &out->sitting, &least);
    out->sitting_limited = s->limited[SITTING];
    out->sitting_share = range_span(&sitting);
    out->sitting_standing = variant_column(s, out->sitting_share, sitting.upper);
    if (out->sitting_standing > out->standing)
        out->standing = out->sitting_standing;
    struct best best = {.sheet = s, .whole = STANDING_OVER};
    for (size_t c = 0; c < COLUMNS; c++)
        best.columns[c] = STANDING_OVER;
    double variants = variant_count(s);
    if (variants > VARIANTS_TRIED)
        best_climb(a, s, &best);
    else if (variants > 1)
        variant_each(a, s, best_note, &best);
    for (enum group g = 0; g < GROUPS; g++)
        out->groups[g].best_standing = variants > 1 ? best.columns[g] : out->groups[g].standing;
    out->best_standing = variants > 1 ? best.whole : out->standing;
}

void
portion_stand(struct arena *a, const struct dish *d, const struct tables *t, int phase,
              struct reads *reads, struct phase_stand *out)
{
    struct sheet sheet;
    sheet_lay(a, d, t, phase, reads, &sheet);
    sheet_stand(a, &sheet, out);
}
