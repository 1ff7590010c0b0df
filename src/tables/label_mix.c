#include "tables/label_mix.h"

#include <math.h>
#include <string.h>

/* % under which an ingredient may stand anywhere at the end (annex VII) */
static const double SMALL = 2;
/* an ingredient holds at least so much of what the larder says of its sugars, fat and others;
 * common practice, no source */
static const double LEAN = 0.8;
/* g: a sum that is more by less is the same */
static const double NEARLY = 0.00005;

static bool
is_within(const struct label *l, size_t i)
{
    return !l->parts[i].passed;
}

/* those in a bracket, or all on the outside, add up to the whole */
static void
add_sums(const struct label *l, struct linear_program *p)
{
    double *weights = linear_add(p, LINEAR_EXACTLY, l->made_from);
    for (size_t i = 0; i < l->part_count; i++)
        weights[i] = l->parts[i].parent == 0;
    for (size_t i = 0; i < l->part_count; i++) {
        if (!is_within(l, i) || l->parts[i].counted)
            continue;
        weights = linear_add(p, LINEAR_EXACTLY, 0);
        weights[i] = -1;
        for (size_t k = 0; k < l->part_count; k++)
            if (l->parts[k].parent == i + 1)
                weights[k] = 1;
    }
}

static void
add_most(struct linear_program *p, size_t i, double most)
{
    linear_add(p, LINEAR_AT_MOST, most)[i] = 1;
}

/* the one before it on the list, in the same bracket; SIZE_MAX: none */
static size_t
before(const struct label *l, size_t i)
{
    for (size_t k = i; k-- > 0;)
        if (l->parts[k].parent == l->parts[i].parent)
            return k;
    return SIZE_MAX;
}

/* each is at most the one before it; from the one numbered `head` on, at most 2 % */
static void
add_order(const struct label *l, size_t head, struct linear_program *p)
{
    size_t number = 0;
    for (size_t i = 0; i < l->part_count; i++) {
        const struct label_part *part = &l->parts[i];
        const size_t other = before(l, i);
        const bool outside = part->parent == 0, late = outside && number >= head;
        number += outside;
        if (!is_within(l, i))
            continue;
        if (part->small > 0)
            add_most(p, i, part->small);
        else if (late)
            add_most(p, i, SMALL);
        else if (other != SIZE_MAX && (outside || !l->parts[part->parent - 1].any_order)) {
            double *weights = linear_add(p, LINEAR_AT_MOST, 0);
            weights[i] = 1;
            weights[other] = -1;
        }
    }
}

/* a percentage in a bracket may be meant of the bracket: at least that of it, at most of the whole
 */
static void
add_percents(const struct label *l, struct linear_program *p)
{
    for (size_t i = 0; i < l->part_count; i++) {
        const struct label_part *part = &l->parts[i];
        if (!is_within(l, i))
            continue;
        if (part->most < 100)
            add_most(p, i, part->most);
        if (part->least <= 0)
            continue;
        double *weights = linear_add(p, LINEAR_AT_LEAST, part->parent == 0 ? part->least : 0);
        weights[i] = 1;
        if (part->parent > 0)
            weights[part->parent - 1] = -part->least / 100;
    }
}

static double
nutrient(const struct food *f, enum nutrient n)
{
    return f != NULL && figure_known(&f->nutrients[n]) ? f->nutrients[n].span.low : 0;
}

/* the ingredients bring no more of anything than is declared */
static void
add_nutrients(const struct label *l, struct linear_program *p)
{
    static const enum nutrient declared[] = {PROTEIN, FAT,   SATURATED_FAT, CARBOHYDRATE,
                                             SUGARS,  FIBRE, SODIUM_MG};
    for (size_t d = 0; d < sizeof declared / sizeof *declared; d++) {
        const enum nutrient n = declared[d];
        const double times = LEAN / 100 * (n == SODIUM_MG ? 0.001 : 1);
        if (!l->nutrients[n].given)
            continue;
        double *weights = linear_add(p, LINEAR_AT_MOST, l->nutrients[n].high);
        for (size_t i = 0; i < l->part_count; i++) {
            const struct food *f = l->parts[i].counted ? l->parts[i].food : NULL;
            const double fibre = n == CARBOHYDRATE && l->fibre_apart ? nutrient(f, FIBRE) : 0;
            weights[i] = fmax(nutrient(f, n) - fibre, 0) * times;
        }
    }
}

struct mix
label_mix(struct arena *scratch, const struct label *l, bool nutrients)
{
    struct mix m = {.scratch = scratch, .label = l};
    size_t outside = 0;
    for (size_t i = 0; i < l->part_count; i++)
        outside += l->parts[i].parent == 0;
    m.count = l->small_anywhere ? outside + 1 : 1;
    m.programs = arena_take_array(scratch, m.count, sizeof *m.programs);
    for (size_t k = 0; k < m.count; k++) {
        struct linear_program *p = &m.programs[k];
        *p = linear_open(scratch, l->part_count);
        add_sums(l, p);
        add_order(l, outside - k, p);
        add_percents(l, p);
        if (nutrients)
            add_nutrients(l, p);
    }
    return m;
}

bool
label_mix_ends(const struct mix *m, const double *weights, struct ends *out)
{
    const size_t count = m->label->part_count;
    double *less = arena_take_array(m->scratch, count, sizeof *less);
    double *at = arena_take_array(m->scratch, count, sizeof *at);
    *out = (struct ends){INFINITY, -INFINITY, arena_take_array(m->scratch, count, sizeof *at)};
    for (size_t i = 0; i < count; i++)
        less[i] = -weights[i];
    for (size_t k = 0; k < m->count; k++) {
        const double most = linear_most(&m->programs[k], weights, at);
        if (isnan(most))
            continue;
        if (most > out->most + NEARLY) {
            out->most = most;
            memcpy(out->at, at, count * sizeof *at);
        }
        out->least = fmin(out->least, -linear_most(&m->programs[k], less, NULL));
    }
    return out->most >= 0;
}
