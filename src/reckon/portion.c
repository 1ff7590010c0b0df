#include "reckon/portion.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* with more ways to settle what one limit hangs on, its extremes alone are reckoned; with more ways
 * to settle all that hangs on anything, a best one is looked for from the least of each */
enum { SETTLED_MOST = 128, VARIANTS_TRIED = 4096, PASSES_MOST = 8, BOUNDED_LEAST = 8 };

static bool
touches(const struct shares *s, const struct limit_case *c, size_t row)
{
    for (size_t i = 0; i < s->sheet->load_count; i++) {
        const struct load *l = &s->sheet->loads[i];
        if (l->ingredient != row)
            continue;
        const struct sheet_entry *e = &s->sheet->entries[l->entry];
        const unsigned any = e->composition.known | e->composition.open;
        if (c->column == SERVED) {
            if (e->serve == c->serve)
                return true;
            continue;
        }
        /* another group of the same serve decides on the allowance for fresh produce */
        const unsigned groups =
            c->column == EXCESS_FRUCTOSE || c->column == SITTING ? any : any & 1u << c->column;
        if (groups != 0 && (c->serve == SIZE_MAX || e->serve == c->serve))
            return true;
    }
    return false;
}

static void
build_limit(struct arena *a, const struct shares *s, struct limit_stand *out)
{
    out->rows = arena_take_array(a, s->sheet->count + 1, sizeof *out->rows);
    out->way_count = 1;
    for (size_t i = 0; i < s->sheet->count; i++)
        if (s->sheet->rows[i].count > 1 && touches(s, &out->of, i)) {
            out->rows[out->row_count++] = i;
            out->way_count *= (double)s->sheet->rows[i].count;
        }
}

static bool
is_worse(const struct share *one, const struct share *other)
{
    if (one->standing != other->standing)
        return one->standing > other->standing;
    return one->mid > other->mid;
}

static bool
is_better(const struct share *one, const struct share *other)
{
    if (one->larger_standing != other->larger_standing)
        return one->larger_standing < other->larger_standing;
    return one->mid < other->mid;
}

static void
note_share(struct limit_stand *l, const struct share *share, bool first)
{
    if (first || is_worse(share, &l->worst))
        l->worst = *share;
    if (first || is_better(share, &l->best))
        l->best = *share;
    l->standing = l->worst.standing;
    l->best_standing = l->best.larger_standing;
}

/* the number of a way of each of a limit's rows */
static size_t
resolved_at(const struct sheet *s, const struct limit_stand *l, const uint8_t *ways)
{
    size_t at = 0;
    for (size_t k = 0; k < l->row_count; k++)
        at = at * s->rows[l->rows[k]].count + ways[l->rows[k]];
    return at;
}

/* the next way of some rows, the last changing first; false after the last */
static bool
next_ways(const struct sheet *s, const size_t *rows, size_t count, uint8_t *ways)
{
    for (size_t k = count; k-- > 0;) {
        if (++ways[rows[k]] < s->rows[rows[k]].count)
            return true;
        ways[rows[k]] = 0;
    }
    return false;
}

static void
reckon_all(struct arena *a, const struct shares *s, uint8_t *ways, struct limit_stand *l)
{
    bool first = true;
    l->resolved = arena_take_array(a, (size_t)l->way_count, 2 * sizeof *l->resolved);
    do {
        struct share share;
        share_reckon(s, &l->of, ways, false, &share);
        const size_t at = resolved_at(s->sheet, l, ways);
        l->resolved[2 * at] = share.standing;
        l->resolved[2 * at + 1] = share.larger_standing;
        note_share(l, &share, first);
        first = false;
    } while (next_ways(s->sheet, l->rows, l->row_count, ways));
}

/* what a way of one ingredient brings, middle and what is open */
static double
way_brings(const struct shares *s, const struct limit_case *c, const struct sheet_way *way)
{
    double brings = 0;
    for (size_t k = 0; k < way->count; k++) {
        const struct load *l = &way->loads[k];
        const struct sheet_entry *e = &s->sheet->entries[l->entry];
        if (c->serve != SIZE_MAX && e->serve != c->serve)
            continue;
        if (c->column == SERVED) {
            brings += l->grams;
            continue;
        }
        const struct content *content =
            c->column == SITTING ? &s->sitting[l->entry] : &e->composition.groups[c->column];
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

static void
reckon_extremes(const struct shares *s, bool plain, uint8_t *ways, struct limit_stand *l)
{
    struct share share;
    for (int end = 1; end >= -1; end -= 2) {
        extreme_ways(s, l, end, ways);
        share_reckon(s, &l->of, ways, plain, &share);
        note_share(l, &share, end > 0);
    }
    for (size_t k = 0; k < l->row_count; k++)
        ways[l->rows[k]] = 0;
}

/* whether some entry stands in one of a limit's choices and in another line as well */
static bool
shares_entries(const struct sheet *s, const struct limit_stand *l)
{
    for (size_t k = 0; k < l->row_count; k++)
        for (size_t i = 0; i < s->load_count; i++)
            for (size_t j = 0; s->loads[i].ingredient == l->rows[k] && j < s->load_count; j++)
                if (s->loads[j].entry == s->loads[i].entry && s->loads[j].ingredient != l->rows[k])
                    return true;
    return false;
}

/* whether a limit over the portion stands alike in every way to settle its choices, by bounds that
 * no way passes */
static bool
stands_alike(const struct shares *s, const struct limit_stand *l)
{
    struct share most, least;
    if (l->of.serve != SIZE_MAX || l->way_count < BOUNDED_LEAST || s->sheet->count > UINT8_MAX ||
        shares_entries(s->sheet, l))
        return false;
    share_bound(s, &l->of, l->rows, l->row_count, 1, &most);
    if (most.standing == STANDING_WITHIN)
        return true;
    share_bound(s, &l->of, l->rows, l->row_count, -1, &least);
    return most.standing == least.standing && most.larger_standing == least.larger_standing;
}

static bool
is_limited(const struct shares *s, const struct limit_case *c)
{
    if (c->column == SERVED)
        return true;
    return c->column == SITTING ? limit_sitting(s->phase, s->reads) != NULL
                                : limit_holds(s->phase, (enum group)c->column, s->reads);
}

static void
add_limit(struct arena *a, struct shares *s, size_t column, size_t serve, uint8_t *ways,
          struct phase_stand *out)
{
    struct limit_stand *l = &out->limits[out->limit_count];
    *l = (struct limit_stand){.of = {column, serve}};
    if (!share_concerns(s, &l->of) || !is_limited(s, &l->of))
        return;
    build_limit(a, s, l);
    const bool plain = share_most(s, &l->of) <= 1;
    if (column == SITTING && !plain)
        shares_build_sitting(s);
    if (plain || l->way_count > SETTLED_MOST || stands_alike(s, l))
        reckon_extremes(s, plain, ways, l);
    else
        reckon_all(a, s, ways, l);
    out->limit_count++;
}

static void
add_limits(struct arena *a, struct shares *s, uint8_t *ways, struct phase_stand *out)
{
    out->limits = arena_take_array(a, (s->sheet->serve_count + 1) * COLUMNS, sizeof *out->limits);
    for (enum group g = 0; g < GROUPS; g++) {
        if (s->phase->groups[g].scope == SCOPE_PORTION) {
            add_limit(a, s, g, SIZE_MAX, ways, out);
            continue;
        }
        for (size_t serve = 0; serve < s->sheet->serve_count; serve++)
            add_limit(a, s, g, serve, ways, out);
    }
    for (size_t serve = 0; serve < s->sheet->serve_count; serve++)
        add_limit(a, s, SERVED, serve, ways, out);
    add_limit(a, s, SITTING, SIZE_MAX, ways, out);
    if (out->limit_count > 0) /* its entry holds the chances that standing goes by */
        reads_note(s->reads, &s->phase->entry);
}

/* in order of standing and share; of equals the first added */
static int
by_nearness(const void *a, const void *b)
{
    const struct limit_stand *const *one = a, *const *other = b;
    if (is_worse(&(*one)->worst, &(*other)->worst))
        return -1;
    if (is_worse(&(*other)->worst, &(*one)->worst))
        return 1;
    return *one < *other ? -1 : 1;
}

/* nearest first */
static void
sort_limits(struct arena *a, struct phase_stand *out)
{
    const struct limit_stand **order = arena_take_array(a, out->limit_count + 1, sizeof *order);
    struct limit_stand *sorted = arena_take_array(a, out->limit_count + 1, sizeof *sorted);
    for (size_t i = 0; i < out->limit_count; i++)
        order[i] = &out->limits[i];
    qsort(order, out->limit_count, sizeof *order, by_nearness);
    for (size_t i = 0; i < out->limit_count; i++)
        sorted[i] = *order[i];
    out->limits = sorted;
}

static struct span
share_span(const struct share *s)
{
    return (struct span){distribution_quantile(&s->spread, 0.05), s->mid,
                         distribution_quantile(&s->spread, 0.95)};
}

/* how far the 5th and the 95th percentile lie from the middle */
struct widths {
    double below, above;
};

static struct widths
widths_of(const struct distribution *d, double mid)
{
    return (struct widths){fmax(mid - distribution_quantile(d, 0.05), 0),
                           fmax(distribution_quantile(d, 0.95) - mid, 0)};
}

static struct widths
widths_beside(struct widths a, struct widths b)
{
    return (struct widths){hypot(a.below, b.below), hypot(a.above, b.above)};
}

/* of a content; of a sum without a figure of its own, as of two independent ones */
static struct widths
widths_held(const struct composition *c, enum group g)
{
    const struct content *content = &c->groups[g];
    struct widths sum = {0, 0};
    if (content->figure != NULL || !group_is_sum(g))
        return widths_of(&content->spread, content->mid);
    for (enum group part = 0; part < GROUPS; part++)
        if (group_is_part(part, g))
            sum = widths_beside(sum, widths_held(c, part));
    return sum;
}

/* what a load brings of a group: middle and widths, those of amount and content as independent */
static double
load_widths(const struct sheet *s, const struct load *l, enum group g, struct widths *out)
{
    const struct composition *c = &s->entries[l->entry].composition;
    const double content = c->groups[g].mid;
    *out = (struct widths){0, 0};
    if (c->groups[g].top <= 0 || l->grams <= 0)
        return 0;
    const struct widths amount = widths_of(&l->amount, l->grams), held = widths_held(c, g);
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

static void
stand_group(const struct sheet *s, enum group g, const struct phase_stand *stand,
            struct group_stand *out)
{
    size_t chief;
    double part;
    out->unknown_ingredient = out->chief = SIZE_MAX;
    for (size_t i = stand->limit_count; i-- > 0;) { /* the nearest last */
        const struct limit_stand *l = &stand->limits[i];
        if (l->of.column != g)
            continue;
        out->limited = true;
        out->standing = l->standing;
        out->best_standing =
            l->best_standing > out->best_standing ? l->best_standing : out->best_standing;
        out->share = share_span(&l->worst);
        out->best_share = share_span(&l->best);
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
    *largest = NULL;
    for (size_t i = 0; i < stand->limit_count; i++) {
        const struct limit_stand *l = &stand->limits[i];
        enum standing one = larger ? l->best_standing : l->standing;
        if (l->resolved != NULL)
            one = l->resolved[2 * resolved_at(s, l, ways) + larger];
        if (*largest == NULL || one > worst) {
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
    } while (next_ways(s, rows, count, ways));
    return best;
}

static void
stand_sitting(struct phase_stand *out)
{
    const struct share *s = &out->whole->worst;
    out->sitting_limited = true;
    out->sitting_share = share_span(s);
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
    struct shares shares;
    uint8_t *ways = arena_take_array(a, s->count + 1, 1);
    memset(out, 0, sizeof *out);
    out->tightest = -1;
    shares_build(a, s, phase, reads, &shares);
    add_limits(a, &shares, ways, out);
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
        stand_group(s, g, out, &out->groups[g]);
    if (out->whole != NULL)
        stand_sitting(out);
    if (out->limit_count > 0)
        out->standing = out->limits[0].standing;
    out->room = room_of(&shares, out);
    out->best_standing = out->limit_count > 0 ? best_variant(a, s, out) : STANDING_WITHIN;
}

/* whether a limit is passed by its middle alone, so that no spread could bring it back: what is
 * within has a chance of a fifth at most, what is not over one of a half */
static bool
is_far_over(struct arena *a, struct shares *s, struct limit_stand *l, uint8_t *ways,
            enum standing most)
{
    struct share middle;
    build_limit(a, s, l);
    if (share_most(s, &l->of) <= 1)
        return false;
    extreme_ways(s, l, 1, ways);
    share_reckon(s, &l->of, ways, true, &middle);
    for (size_t k = 0; k < l->row_count; k++)
        ways[l->rows[k]] = 0;
    return middle.mid > (most == STANDING_WITHIN ? 1 : 1.25);
}

/* one limit of a trial: by its middle alone, or whole */
static bool
keeps_limit(struct arena *a, struct shares *s, struct limit_case of, bool whole, enum standing most)
{
    struct limit_stand l = {.of = of};
    struct phase_stand one = {.limits = &l};
    uint8_t *ways = arena_take_array(a, s->sheet->count + 1, 1);
    if (!share_concerns(s, &of) || !is_limited(s, &of))
        return true;
    if (!whole)
        return !is_far_over(a, s, &l, ways, most);
    add_limit(a, s, of.column, of.serve, ways, &one);
    return one.limit_count == 0 || l.standing <= most;
}

bool
portion_keeps(struct arena *a, const struct dish *d, const struct tables *t, int phase,
              struct reads *reads, enum standing most)
{
    struct sheet sheet;
    struct shares s;
    sheet_build(a, d, t, reads, &sheet);
    shares_build(a, &sheet, phase, reads, &s);
    for (int whole = 0; whole < 2; whole++) {
        for (enum group g = 0; g < GROUPS; g++) {
            const bool all = s.phase->groups[g].scope == SCOPE_PORTION;
            for (size_t serve = 0; serve < (all ? 1 : sheet.serve_count); serve++)
                if (!keeps_limit(a, &s, (struct limit_case){g, all ? SIZE_MAX : serve}, whole,
                                 most))
                    return false;
        }
        if (!keeps_limit(a, &s, (struct limit_case){SITTING, SIZE_MAX}, whole, most))
            return false;
    }
    return true;
}

void
portion_stand(struct arena *a, const struct dish *d, const struct tables *t, int phase,
              struct reads *reads, struct phase_stand *out)
{
    struct sheet sheet;
    sheet_build(a, d, t, reads, &sheet);
    sheet_stand(a, &sheet, phase, reads, out);
}
