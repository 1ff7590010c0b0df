#include "reckon/variant.h"

#include <math.h>
#include <string.h>

/* so that a share of exactly 1.00 does not depend on the order of adding up */
static const double HAIR = 1e-9;

/* what standing hangs on, of a set of settled rows */
struct sums {
    struct span share[COLUMNS];
    double bound[COLUMNS];
    struct span fresh_share;
    double fresh_bound;
    bool alone;
};

struct walk {
    const struct sheet *sheet;
    uint8_t *ways;
    void (*each)(void *ctx, const uint8_t *ways, const struct variant_stand *stand);
    void *ctx;
};

enum standing
standing_of(struct span share, double close_at, bool unknown)
{
    if (share.mid > 1 + HAIR)
        return STANDING_OVER;
    if (share.high > 1 + HAIR)
        return STANDING_MAY_EXCEED;
    if (unknown)
        return STANDING_UNKNOWN;
    return share.mid >= close_at - HAIR ? STANDING_CLOSE : STANDING_WITHIN;
}

enum standing
variant_column(const struct sheet *s, struct span share, double upper)
{
    enum standing standing = standing_of(share, s->close_at, upper > 1 + HAIR);
    /* an unknown part of the dish stands no worse than the whole of it, but how it stands if the
     * whole does not fit is not known */
    return s->portions_known || standing == STANDING_WITHIN ? standing : STANDING_UNKNOWN;
}

static void
sums_fixed(const struct sheet *s, struct sums *out)
{
    for (size_t c = 0; c < COLUMNS; c++) {
        out->share[c] = s->fixed.columns[c].share;
        out->bound[c] = s->fixed.columns[c].bound;
    }
    out->fresh_share = s->fixed.fresh_share;
    out->fresh_bound = s->fixed.fresh_bound;
    out->alone = s->fixed.alone;
}

/* in place, without a call for each: this is the innermost of the walk over variants */
static void
sums_add(const struct sheet *s, struct sums *sums, const struct sheet_way *way)
{
    for (size_t c = 0; c < COLUMNS; c++) {
        sums->share[c].low += way->columns[c].share.low;
        sums->share[c].mid += way->columns[c].share.mid;
        sums->share[c].high += way->columns[c].share.high;
        sums->bound[c] += way->columns[c].bound;
    }
    sums->fresh_share.low += way->fresh_share.low;
    sums->fresh_share.mid += way->fresh_share.mid;
    sums->fresh_share.high += way->fresh_share.high;
    sums->fresh_bound += way->fresh_bound;
    sums->alone = sums->alone && way_alone(s, way);
}

static void
sums_stand(const struct sheet *s, const struct sums *sums, struct variant_stand *out)
{
    memcpy(out->share, sums->share, sizeof out->share);
    for (size_t c = 0; c < COLUMNS; c++)
        out->upper[c] = sums->share[c].high + sums->bound[c];
    if (sums->alone) {
        out->share[EXCESS_FRUCTOSE] = sums->fresh_share;
        out->upper[EXCESS_FRUCTOSE] = sums->fresh_share.high + sums->fresh_bound;
    }
    out->standing = STANDING_WITHIN;
    out->tightest = -1;
    for (size_t c = 0; c < COLUMNS; c++) {
        out->columns[c] = variant_column(s, out->share[c], out->upper[c]);
        if (out->columns[c] > out->standing)
            out->standing = out->columns[c];
        if (c < GROUPS && out->share[c].high > 0 &&
            (out->tightest < 0 || out->share[c].mid > out->share[out->tightest].mid))
            out->tightest = (int)c;
    }
}

void
variant_reckon(const struct sheet *s, const uint8_t *ways, struct variant_stand *out)
{
    struct sums sums;
    sums_fixed(s, &sums);
    for (size_t k = 0; k < s->choice_count; k++) {
        const size_t i = s->choices[k];
        sums_add(s, &sums, &s->rows[i].ways[ways[i]]);
    }
    sums_stand(s, &sums, out);
}

double
variant_count(const struct sheet *s)
{
    double count = 1;
    for (size_t i = 0; i < s->count; i++)
        count *= (double)s->rows[i].count;
    return count;
}

static void
walk_on(struct walk *walk, size_t choice, const struct sums *so_far)
{
    const struct sheet *s = walk->sheet;
    if (choice == s->choice_count) {
        struct variant_stand stand;
        sums_stand(s, so_far, &stand);
        walk->each(walk->ctx, walk->ways, &stand);
        return;
    }
    const size_t row = s->choices[choice];
    for (size_t w = 0; w < s->rows[row].count; w++) {
        struct sums sums = *so_far;
        sums_add(s, &sums, &s->rows[row].ways[w]);
        walk->ways[row] = (uint8_t)w;
        walk_on(walk, choice + 1, &sums);
    }
}

void
variant_each(struct arena *a, const struct sheet *s,
             void (*each)(void *ctx, const uint8_t *ways, const struct variant_stand *stand),
             void *ctx)
{
    struct walk walk = {s, arena_take_array(a, s->count + 1, 1), each, ctx};
    struct sums fixed;
    sums_fixed(s, &fixed);
    walk_on(&walk, 0, &fixed);
}

const char *
standing_word(enum standing s)
{
    static const char *const words[] = {"within", "close", "unknown", "may-exceed", "over"};
    return words[s];
}

const char *
standing_sentence(enum standing s)
{
    static const char *const sentences[] = {
        "One portion stays within the limits.",
        "One portion stays within the limits, but comes close to one of them.",
        "How one portion stands is not known: a figure is missing.",
        "One portion may exceed a limit: spoons, sizes and varieties spread that far.",
        "One portion is over a limit."};
    return sentences[s];
}
