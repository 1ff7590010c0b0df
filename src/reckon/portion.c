#include "reckon/portion.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* with more ways to settle all that hangs on anything, a best one is looked for from the least of
 * each */
enum { VARIANTS_TRIED = 4096, PASSES_MOST = 8 };

/* whether a limit is held against the whole portion */
static bool
is_whole(const struct phase *p, size_t column)
{
    return column == SITTING || (column < GROUPS && p->groups[column].scope == SCOPE_PORTION);
}

static void
add_limit(struct arena *a, struct shares *s, const struct limit_case *c, struct phase_stand *out)
{
    if (limit_stand_holds(s, c))
        limit_stand_reckon(a, s, c, &out->limits[out->limit_count++]);
}

static size_t
case_count(const struct shares *s)
{
    size_t count = COLUMNS;
    for (size_t i = 0; i < s->sheet->serve_count; i++)
        for (unsigned columns = s->columns[i]; columns != 0; columns &= columns - 1)
            count++;
    return count;
}

static void
add_limits(struct arena *a, struct shares *s, struct phase_stand *out)
{
    static const size_t order[] = {SERVED, SITTING}; /* after the groups */
    out->limits = arena_take_raw(a, case_count(s) * sizeof *out->limits);
    for (size_t k = 0; k < COLUMNS; k++) {
        const size_t column = k < GROUPS ? k : order[k - GROUPS];
        if (is_whole(s->phase, column)) {
            add_limit(a, s, &(struct limit_case){column, SIZE_MAX}, out);
            continue;
        }
        for (size_t serve = 0; serve < s->sheet->serve_count; serve++)
            add_limit(a, s, &(struct limit_case){column, serve}, out);
    }
    if (out->limit_count > 0) /* its entry holds the chances that standing goes by */
        reads_note(s->reads, &s->phase->entry);
}

/* in order of standing and share; of equals the first added */
static int
by_nearness(const void *a, const void *b)
{
    const struct limit_stand *const *one = a, *const *other = b;
    if (limit_stand_worse(&(*one)->worst, &(*other)->worst))
        return -1;
    if (limit_stand_worse(&(*other)->worst, &(*one)->worst))
        return 1;
    return *one < *other ? -1 : 1;
}

/* nearest first */
static void
sort_limits(struct arena *a, struct phase_stand *out)
{
    const struct limit_stand **order = arena_take_raw(a, (out->limit_count + 1) * sizeof *order);
    struct limit_stand *sorted = arena_take_raw(a, (out->limit_count + 1) * sizeof *sorted);
    for (size_t i = 0; i < out->limit_count; i++)
        order[i] = &out->limits[i];
    qsort(order, out->limit_count, sizeof *order, by_nearness);
    for (size_t i = 0; i < out->limit_count; i++)
        sorted[i] = *order[i];
    out->limits = sorted;
}

/* the choices that some limit hangs on which is not within in every way */
static double
open_rows(const struct sheet *s, const struct phase_stand *stand, size_t *rows, size_t *count)
{
    double product = 1;
    *count = 0;
    for (size_t i = 0; i < s->count; i++) {
        bool open = false;
        for (size_t k = 0; k < stand->limit_count && !open; k++) {
            const struct limit_stand *l = &stand->limits[k];
            for (size_t r = 0; r < l->row_count && l->standing != STANDING_WITHIN; r++)
                open = open || l->rows[r] == i;
        }
        if (open) {
            rows[(*count)++] = i;
            product *= (double)s->rows[i].count;
        }
    }
    return product;
}

static enum standing
variant_standing(const struct sheet *s, const struct phase_stand *stand, const uint8_t *ways,
                 bool larger, const struct limit_stand **largest)
{
    enum standing worst = STANDING_WITHIN;
    *largest = stand->limit_count > 0 ? &stand->limits[0] : NULL;
    for (size_t i = 0; i < stand->limit_count; i++) {
        const struct limit_stand *l = &stand->limits[i];
        if (l->standing == STANDING_WITHIN)
            break; /* they are sorted by it */
        const enum standing one = limit_stand_at(s, l, ways, larger);
        if (one > worst) {
            worst = one;
            *largest = l;
        }
    }
    return worst;
}

enum standing
portion_variant(const struct sheet *s, const struct phase_stand *stand, const uint8_t *ways,
                const struct limit_stand **largest)
{
    return variant_standing(s, stand, ways, false, largest);
}

/* row by row to a better way, from the first of each */
static enum standing
best_climb(const struct sheet *s, const struct phase_stand *stand, const size_t *rows, size_t count,
           uint8_t *ways)
{
    const struct limit_stand *largest;
    enum standing best = variant_standing(s, stand, ways, true, &largest);
    for (int pass = 0, better = 1; better && pass < PASSES_MOST; pass++) {
        better = 0;
        for (size_t k = 0; k < count; k++)
            for (size_t w = 0; w < s->rows[rows[k]].count; w++) {
                const uint8_t was = ways[rows[k]];
                ways[rows[k]] = (uint8_t)w;
                const enum standing one = variant_standing(s, stand, ways, true, &largest);
                if (one < best) {
                    best = one;
                    better = 1;
                } else {
                    ways[rows[k]] = was;
                }
            }
    }
    return best;
}

static enum standing
best_variant(struct arena *a, const struct sheet *s, const struct phase_stand *stand)
{
    const struct limit_stand *largest;
    size_t *rows = arena_take_array(a, s->count + 1, sizeof *rows), count;
    uint8_t *ways = arena_take_array(a, s->count + 1, 1);
    enum standing best = STANDING_OVER;
    if (open_rows(s, stand, rows, &count) > VARIANTS_TRIED)
        return best_climb(s, stand, rows, count, ways);
    do {
        const enum standing one = variant_standing(s, stand, ways, true, &largest);
        best = one < best ? one : best;
    } while (limit_stand_next(s, rows, count, ways));
    return best;
}

static void
stand_sitting(struct phase_stand *out)
{
    const struct share *s = &out->whole->worst;
    out->sitting_limited = true;
    out->sitting_share = group_stand_span(s);
    out->sitting = span_scale(out->sitting_share, s->limit);
    out->sitting_standing = out->whole->standing;
}

/* a share grows with the portion: within until its chance of being over comes to close-at, close
 * until it comes to over-at */
static double
room_of(const struct shares *s, const struct phase_stand *stand)
{
    double room = INFINITY;
    if (stand->standing > STANDING_CLOSE)
        return 0;
    const double at = stand->standing == STANDING_CLOSE ? s->over_at : s->close_at;
    for (size_t i = 0; i < stand->limit_count; i++) {
        const struct share *share = &stand->limits[i].worst;
        const double reached = distribution_quantile(&share->spread, 1 - at);
        if (reached > 0)
            room = fmin(room, 1 / reached);
    }
    return room;
}

void
sheet_stand(struct arena *a, const struct sheet *s, int phase, struct reads *reads,
            struct phase_stand *out)
{
    memset(out, 0, sizeof *out);
    out->tightest = -1;
    out->shares = arena_take(a, sizeof *out->shares);
    shares_build(a, s, phase, reads, out->shares);
    add_limits(a, out->shares, out);
    sort_limits(a, out);
    for (size_t i = out->limit_count; i-- > 0;) {
        const struct limit_stand *l = &out->limits[i];
        if (l->of.column == SITTING)
            out->whole = l;
        else if (l->worst.spread.points[DISTRIBUTION_POINTS - 1] > 0 ||
                 l->standing != STANDING_WITHIN)
            out->nearest = l;
    }
    if (out->nearest != NULL && out->nearest->of.column < GROUPS)
        out->tightest = (int)out->nearest->of.column;
    for (enum group g = 0; g < GROUPS; g++)
        group_stand_reckon(s, g, out->limits, out->limit_count, &out->groups[g]);
    if (out->whole != NULL)
        stand_sitting(out);
    if (out->limit_count > 0)
        out->standing = out->limits[0].standing;
    out->room = room_of(out->shares, out);
    out->best_standing = out->limit_count > 0 ? best_variant(a, s, out) : STANDING_WITHIN;
}

/* one limit of a trial: by its middles and moments alone, or whole */
static bool
keeps_case(struct arena *a, struct shares *s, const struct limit_case *c, bool whole,
           enum standing most)
{
    bool decided;
    return whole ? limit_stand_keeps(a, s, c, most) : limit_stand_may_keep(a, s, c, most, &decided);
}

bool
portion_keeps(struct arena *a, struct shares *s, const bool *changed, enum standing most)
{
    for (int whole = 0; whole < 2; whole++) {
        for (size_t column = 0; column < COLUMNS; column++) {
            if (is_whole(s->phase, column)) {
                if (!keeps_case(a, s, &(struct limit_case){column, SIZE_MAX}, whole, most))
                    return false;
                continue;
            }
            for (size_t serve = 0; serve < s->sheet->serve_count; serve++)
                if ((changed == NULL || changed[serve]) &&
                    !keeps_case(a, s, &(struct limit_case){column, serve}, whole, most))
                    return false;
        }
    }
    return true;
}

void
portion_stand(struct arena *a, const struct dish *d, const struct tables *t, int phase,
              struct reads *reads, struct phase_stand *out)
{
    struct sheet *sheet = arena_take(a, sizeof *sheet);
    sheet_build(a, d, t, reads, sheet);
    sheet_stand(a, sheet, phase, reads, out);
}
