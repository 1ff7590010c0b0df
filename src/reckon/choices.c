#include "reckon/choices.h"

#include <string.h>

enum { WAY_OPEN = 0xff, PAIRS_MOST = 24, STEPS_MOST = 16 };

/* the choices of a dish while they are settled */
struct resolving {
    const struct sheet *sheet;
    const struct phase_stand *stand;
    uint8_t *ways; /* by ingredient; WAY_OPEN: not settled */
    size_t *rows;  /* the choices */
    size_t count;
};

/* whether a numbered way of a limit's rows agrees with what is settled */
static bool
agrees(const struct resolving *s, const struct limit_stand *l, size_t at)
{
    for (size_t k = l->row_count; k-- > 0;) {
        const size_t count = s->sheet->rows[l->rows[k]].count;
        const uint8_t way = s->ways[l->rows[k]];
        if (way != WAY_OPEN && way != at % count)
            return false;
        at /= count;
    }
    return true;
}

/* the worst standing of all variants that agree with what is settled */
static enum standing
worst_left(const struct resolving *s)
{
    enum standing worst = STANDING_WITHIN;
    for (size_t i = 0; i < s->stand->limit_count; i++) {
        const struct limit_stand *l = &s->stand->limits[i];
        if (l->standing <= worst)
            break; /* they are sorted by it */
        if (l->resolved == NULL) {
            worst = l->standing;
            continue;
        }
        for (size_t at = 0; at < (size_t)l->way_count; at++)
            if (l->resolved[2 * at] > worst && agrees(s, l, at))
                worst = l->resolved[2 * at];
    }
    return worst;
}

/* settles the one choice that helps most; false when none helps */
static bool
resolve_one(struct resolving *s, enum standing *standing)
{
    enum standing best = *standing;
    size_t best_row = SIZE_MAX;
    uint8_t best_way = 0;
    for (size_t k = 0; k < s->count; k++) {
        const size_t row = s->rows[k];
        if (s->ways[row] != WAY_OPEN)
            continue;
        for (size_t w = 0; w < s->sheet->rows[row].count; w++) {
            s->ways[row] = (uint8_t)w;
            const enum standing one = worst_left(s);
            if (one < best) {
                best = one;
                best_row = row;
                best_way = (uint8_t)w;
            }
        }
        s->ways[row] = WAY_OPEN;
    }
    if (best_row == SIZE_MAX)
        return false;
    s->ways[best_row] = best_way;
    *standing = best;
    return true;
}

/* tries every way of one choice beside every way of another */
static bool
try_pair(struct resolving *s, enum standing *standing)
{
    for (size_t k = 0; k < s->count && s->count <= PAIRS_MOST; k++)
        for (size_t w = 0; s->ways[s->rows[k]] == WAY_OPEN && w < s->sheet->rows[s->rows[k]].count;
             w++) {
            s->ways[s->rows[k]] = (uint8_t)w;
            enum standing left = *standing;
            if (resolve_one(s, &left)) {
                *standing = left;
                return true;
            }
            s->ways[s->rows[k]] = WAY_OPEN;
        }
    return false;
}

static void
resolve(struct arena *a, struct resolving *s, struct choices *out)
{
    enum standing standing = s->stand->standing;
    for (size_t step = 0; standing > STANDING_WITHIN && step < STEPS_MOST; step++)
        if (!resolve_one(s, &standing) && !try_pair(s, &standing))
            break;
    out->resolved = standing;
    out->resolve = arena_take_array(a, 2 * out->choice_count + 1, sizeof *out->resolve);
    for (size_t k = 0; k < s->count; k++) {
        const size_t row = s->rows[k];
        const uint8_t way = s->ways[row];
        if (way == WAY_OPEN)
            continue;
        s->ways[row] = WAY_OPEN; /* what another choice makes needless is opened again */
        if (worst_left(s) <= standing)
            continue;
        s->ways[row] = way;
        out->resolve[2 * out->resolve_count] = row;
        out->resolve[2 * out->resolve_count++ + 1] = s->sheet->rows[row].ways[way].pick;
    }
}

static bool
next_variant(const struct resolving *s, uint8_t *ways)
{
    for (size_t k = s->count; k-- > 0;) {
        if (++ways[s->rows[k]] < s->sheet->rows[s->rows[k]].count)
            return true;
        ways[s->rows[k]] = 0;
    }
    return false;
}

static void
list_variants(struct arena *a, const struct resolving *s, struct choices *out)
{
    uint8_t *ways = arena_take_array(a, s->sheet->count + 1, 1);
    out->variants = arena_take_array(a, (size_t)out->variant_count, sizeof *out->variants);
    do {
        struct variant *v = &out->variants[out->count++];
        const struct limit_stand *largest;
        v->picks = arena_take_array(a, s->sheet->count + 1, 1);
        for (size_t i = 0; i < s->sheet->count; i++)
            v->picks[i] = s->sheet->rows[i].ways[ways[i]].pick;
        v->standing = portion_variant(s->sheet, s->stand, ways, &largest);
        out->differ = out->differ || v->standing != out->variants[0].standing;
    } while (next_variant(s, ways));
}

void
choices_find(struct arena *a, const struct sheet *s, const struct phase_stand *stand,
             struct choices *out)
{
    struct resolving resolving = {.sheet = s, .stand = stand};
    resolving.ways = arena_take_array(a, s->count + 1, 1);
    resolving.rows = arena_take_array(a, s->count + 1, sizeof *resolving.rows);
    memset(resolving.ways, WAY_OPEN, s->count);
    *out = (struct choices){.variant_count = 1, .resolved = stand->standing};
    for (size_t i = 0; i < s->count; i++)
        if (s->rows[i].count > 1) {
            resolving.rows[resolving.count++] = i;
            out->variant_count *= (double)s->rows[i].count;
        }
    out->choice_count = resolving.count;
    if (resolving.count == 0)
        return;
    if (out->variant_count <= VARIANTS_MOST)
        list_variants(a, &resolving, out);
    else
        out->differ = stand->best_standing != stand->standing;
    if (out->differ)
        resolve(a, &resolving, out);
}
