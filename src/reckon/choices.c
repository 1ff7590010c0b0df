#include "reckon/choices.h"

#include <math.h>
#include <string.h>

/* what is known of a set of variants: those that agree with some settled choices */
struct among {
    uint8_t standing; /* the worst of them */
    uint8_t settled;  /* number of settled choices */
    float share;      /* their largest share.mid */
};

/* with more choices than these, none is settled: the search grows with their cube */
enum { CHOICES_CLIMBED = 32 };

struct gather {
    struct arena *arena;
    const struct sheet *sheet;
    struct choices *out;
    struct among *sets; /* by mixed radix over the choices; the digit 0 leaves a choice open */
    const size_t *rows, *places;
    uint8_t *picks;         /* of all variants, one behind the other */
    uint8_t *settled_picks; /* of the ingredients that are no choice */
};

static double
largest_share(const struct variant_stand *v)
{
    double share = 0;
    for (size_t c = 0; c < COLUMNS; c++)
        share = v->share[c].mid > share ? v->share[c].mid : share;
    return share;
}

static void
note_variant(void *ctx, const uint8_t *ways, const struct variant_stand *stand)
{
    struct gather *g = ctx;
    struct variant *v = &g->out->variants[g->out->count++];
    v->picks = g->picks + (g->out->count - 1) * g->sheet->count;
    memcpy(v->picks, g->settled_picks, g->sheet->count);
    for (size_t k = 0; k < g->out->choice_count; k++)
        v->picks[g->rows[k]] = g->sheet->rows[g->rows[k]].ways[ways[g->rows[k]]].pick;
    v->standing = stand->standing;
    v->tightest = stand->tightest;
    v->share = stand->tightest < 0 ? 0 : stand->share[stand->tightest].mid;
    size_t at = 0;
    for (size_t k = 0; k < g->out->choice_count; k++)
        at += (size_t)(ways[g->rows[k]] + 1) * g->places[k];
    g->sets[at] = (struct among){(uint8_t)stand->standing, (uint8_t)g->out->choice_count,
                                 (float)largest_share(stand)};
}

/* fills the sets that leave choice k open, from those that settle it */
static void
join_sets(const struct gather *g, size_t k, size_t total)
{
    const size_t ways = g->sheet->rows[g->rows[k]].count, place = g->places[k];
    for (size_t block = 0; block < total; block += place * (ways + 1))
        for (size_t at = block; at < block + place; at++) {
            struct among worst = {0, 0, 0};
            for (size_t w = 1; w <= ways; w++) {
                const struct among *one = &g->sets[at + w * place];
                worst.standing = one->standing > worst.standing ? one->standing : worst.standing;
                worst.share = one->share > worst.share ? one->share : worst.share;
            }
            worst.settled = (uint8_t)(g->sets[at + place].settled - 1);
            g->sets[at] = worst;
        }
}

static void
settle_listed(const struct gather *g, size_t total)
{
    struct choices *out = g->out;
    size_t best = 0;
    for (size_t at = 1; at < total; at++) {
        const struct among *one = &g->sets[at], *held = &g->sets[best];
        if (one->standing < held->standing ||
            (one->standing == held->standing &&
             (one->settled < held->settled ||
              (one->settled == held->settled && one->share < held->share))))
            best = at;
    }
    out->settled = (enum standing)g->sets[best].standing;
    out->settle = arena_take_array(g->arena, 2 * out->choice_count + 1, sizeof *out->settle);
    for (size_t k = 0; k < out->choice_count; k++) {
        const struct sheet_row *row = &g->sheet->rows[g->rows[k]];
        size_t digit = best / g->places[k] % (row->count + 1);
        if (digit == 0)
            continue;
        out->settle[2 * out->settle_count] = g->rows[k];
        out->settle[2 * out->settle_count++ + 1] = row->ways[digit - 1].pick;
    }
}

static void
list_variants(struct arena *a, const struct sheet *s, const size_t *rows, struct choices *out)
{
    size_t *places = arena_take_array(a, out->choice_count + 1, sizeof *places), total = 1;
    for (size_t k = 0; k < out->choice_count; k++) {
        places[k] = total;
        total *= s->rows[rows[k]].count + 1;
    }
    struct gather g = {.arena = a, .sheet = s, .out = out, .rows = rows, .places = places};
    g.sets = arena_take_array(a, total, sizeof *g.sets);
    g.picks = arena_take_array(a, (size_t)out->variant_count, s->count + 1);
    g.settled_picks = arena_take_array(a, s->count + 1, 1);
    for (size_t i = 0; i < s->count; i++)
        g.settled_picks[i] = s->rows[i].ways[0].pick;
    out->variants = arena_take_array(a, (size_t)out->variant_count, sizeof *out->variants);
    variant_each(a, s, note_variant, &g);
    for (size_t i = 1; i < out->count; i++)
        out->differ = out->differ || out->variants[i].standing != out->variants[0].standing;
    for (size_t k = 0; out->differ && k < out->choice_count; k++)
        join_sets(&g, k, total);
    if (out->differ)
        settle_listed(&g, total);
}

/* the row cut down to one way, and back */
static struct sheet_row
row_settle(struct sheet *s, size_t row, size_t way)
{
    struct sheet_row was = s->rows[row];
    s->rows[row].ways += way;
    s->rows[row].count = 1;
    return was;
}

/* with too many variants to list: settles the choice that helps most, again and again, then opens
 * again what need not be settled */
static void
settle_climbing(struct arena *a, const struct sheet *sheet, const size_t *rows,
                enum standing target, struct choices *out)
{
    struct sheet s = *sheet;
    s.rows = arena_take_array(a, s.count + 1, sizeof *s.rows);
    memcpy(s.rows, sheet->rows, s.count * sizeof *s.rows);
    double share, tried;
    enum standing standing = sheet_worst(&s, &share);
    for (size_t step = 0; standing > target && step < out->choice_count; step++) {
        size_t best_row = SIZE_MAX, best_way = 0;
        enum standing best = STANDING_OVER;
        double best_share = INFINITY;
        for (size_t k = 0; k < out->choice_count; k++)
            for (size_t w = 0; s.rows[rows[k]].count > 1 && w < s.rows[rows[k]].count; w++) {
                struct sheet_row was = row_settle(&s, rows[k], w);
                enum standing now = sheet_worst(&s, &tried);
                s.rows[rows[k]] = was;
                if (now < best || (now == best && tried < best_share)) {
                    best = now;
                    best_share = tried;
                    best_row = rows[k];
                    best_way = w;
                }
            }
        if (best_row == SIZE_MAX)
            break;
        row_settle(&s, best_row, best_way);
        standing = best;
    }
    out->settle = arena_take_array(a, 2 * out->choice_count + 1, sizeof *out->settle);
    for (size_t k = 0; k < out->choice_count; k++) {
        struct sheet_row settled = s.rows[rows[k]];
        if (settled.count > 1)
            continue;
        s.rows[rows[k]] = sheet->rows[rows[k]];
        if (sheet_worst(&s, &tried) <= standing)
            continue;
        s.rows[rows[k]] = settled;
        out->settle[2 * out->settle_count] = rows[k];
        out->settle[2 * out->settle_count++ + 1] = settled.ways[0].pick;
    }
    out->settled = standing;
}

void
sheet_choices(struct arena *a, const struct sheet *s, struct choices *out)
{
    memset(out, 0, sizeof *out);
    const size_t *rows = s->choices;
    out->choice_count = s->choice_count;
    out->variant_count = variant_count(s);
    double share;
    out->settled = sheet_worst(s, &share);
    if (out->choice_count == 0)
        return;
    if (out->variant_count <= VARIANTS_MOST) {
        list_variants(a, s, rows, out);
        return;
    }
    struct phase_stand stand;
    sheet_stand(a, s, &stand);
    out->differ = stand.best_standing != stand.standing;
    if (out->differ && out->choice_count <= CHOICES_CLIMBED)
        settle_climbing(a, s, rows, stand.best_standing, out);
}

void
choices_lay(struct arena *a, const struct dish *d, const struct tables *t, int phase,
            struct reads *reads, struct choices *out)
{
    struct sheet sheet;
    sheet_lay(a, d, t, phase, reads, &sheet);
    sheet_choices(a, &sheet, out);
}
