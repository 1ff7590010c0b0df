#include "reckon/remedy_cuts.h"

#include <math.h>
#include <string.h>

#include "reckon/remedy_words.h"
#include "reckon/remedy_mixed.h"

/* the dish with some ingredients settled or left out, and which */
struct mixed {
    struct dish dish;
    size_t *picks; /* by ingredient: 0 left out, else option number + 1; SIZE_MAX: as it was */
    size_t settled;
};

static void
mixed_settle(struct mixed *m, size_t ingredient, size_t pick)
{
    remedy_settle(&m->dish, ingredient, pick);
    m->picks[ingredient] = pick;
    m->settled++;
}

/* whether some way to make the ingredient could carry any amount of a group */
static bool
is_boundless(const struct sheet_row *row)
{
    for (size_t w = 0; w < row->count; w++)
        for (size_t c = 0; c < COLUMNS; c++)
            if (!isfinite(row->ways[w].columns[c].bound))
                return true;
    return false;
}

/* the listed variant that stands best, NULL where none are listed */
static const struct variant *
best_variant(const struct choices *c)
{
    const struct variant *best = NULL;
    for (size_t v = 0; v < c->count; v++)
        if (best == NULL || c->variants[v].standing < best->standing ||
            (c->variants[v].standing == best->standing && c->variants[v].share < best->share))
            best = &c->variants[v];
    return best;
}

/* all that must come down of a dish, in all */
static double
whole_need(const struct remedy_search *f, const struct dish *d)
{
    struct remedy_search inner = *f;
    remedy_sheet(f, d, &inner.sheet);
    const struct excesses e = remedy_excesses(&inner);
    double need = 0;
    for (size_t k = 0; k < e.count; k++)
        need += isfinite(e.items[k].need) ? e.items[k].need : 0;
    return need;
}

/* Where the variants stand alike, one of them still carries least: settles what makes it so. */
static void
settle_least(const struct remedy_search *f, struct mixed *m)
{
    const struct variant *best = best_variant(f->choices);
    if (best == NULL)
        return;
    const struct ingredient *was = f->dish->ingredients;
    for (size_t i = 0; i < m->dish.count; i++)
        if (was[i].option_count + was[i].optional > 1)
            mixed_settle(m, i, best->picks[i]);
    const double need = whole_need(f, &m->dish);
    for (size_t i = 0; i < m->dish.count; i++) {
        if (m->picks[i] == SIZE_MAX)
            continue;
        const struct ingredient settled = m->dish.ingredients[i];
        m->dish.ingredients[i] = was[i];
        if (whole_need(f, &m->dish) > need + 1e-9) {
            m->dish.ingredients[i] = settled;
            continue;
        }
        m->picks[i] = SIZE_MAX;
        m->settled--;
    }
}

/* settles the choices that help, then leaves out what no amount of can be known to fit */
static void
mixed_lay(const struct remedy_search *f, struct mixed *m, struct sheet *sheet)
{
    m->dish = remedy_copy_dish(f);
    m->picks = arena_take_array(f->arena, m->dish.count + 1, sizeof *m->picks);
    for (size_t i = 0; i < m->dish.count; i++)
        m->picks[i] = SIZE_MAX;
    for (size_t k = 0; f->choices->differ && k < f->choices->settle_count; k++)
        mixed_settle(m, f->choices->settle[2 * k], f->choices->settle[2 * k + 1]);
    if (m->settled == 0 && f->choices->choice_count > 0 && remedy_affords(f))
        settle_least(f, m);
    *sheet = f->sheet; /* where nothing is settled, the dish is as it was */
    if (m->settled > 0)
        remedy_sheet(f, &m->dish, sheet);
    bool changed = false;
    size_t left = 0;
    for (size_t i = 0; i < m->dish.count; i++)
        left += m->picks[i] != 0;
    for (size_t i = 0; i < m->dish.count; i++)
        if (left > 1 && is_boundless(&sheet->rows[i])) {
            if (m->picks[i] != SIZE_MAX)
                m->settled--;
            mixed_settle(m, i, 0);
            changed = true;
            left--;
        }
    if (changed)
        remedy_sheet(f, &m->dish, sheet);
}

/* what was settled, then the cuts, in the numbers of the dish as it was */
static struct cut *
cuts_together(const struct remedy_search *f, const struct mixed *m, const struct remedy *amounts,
              size_t *count)
{
    const size_t cut_count = amounts == NULL ? 0 : amounts->cut_count;
    struct cut *cuts = arena_take_array(f->arena, m->settled + cut_count + 1, sizeof *cuts);
    *count = 0;
    for (size_t i = 0; i < m->dish.count; i++)
        if (m->picks[i] != SIZE_MAX)
            cuts[(*count)++] = (struct cut){.ingredient = i,
                                            .option = m->picks[i] == 0 ? SIZE_MAX : m->picks[i] - 1,
                                            .settles = true};
    for (size_t k = 0; k < cut_count; k++) {
        struct cut *cut = &cuts[(*count)++];
        *cut = amounts->cuts[k];
        const size_t pick = m->picks[cut->ingredient];
        if (pick != SIZE_MAX)
            cut->option += pick - 1;
    }
    return cuts;
}

void
remedy_mixed(struct remedy_search *f)
{
    struct mixed m = {.settled = 0};
    struct remedy_search inner = *f;
    mixed_lay(f, &m, &inner.sheet);
    if (m.settled == 0)
        return;
    struct phase_stand stand;
    sheet_stand(f->arena, &inner.sheet, &stand);
    inner.dish = &m.dish;
    inner.stand = &stand;
    memset(&inner.found, 0, sizeof inner.found);
    struct excesses e = remedy_excesses(&inner);
    if (e.count > 0)
        remedy_effects(&inner, &e);
    if (e.count > 0 && !remedy_reduce(&inner, &e) && !remedy_fewest_cuts(&inner, &e))
        return;
    const struct remedy *amounts = e.count > 0 ? &inner.found.items[0] : NULL;
    const enum standing after = amounts == NULL ? stand.standing : amounts->after;
    size_t count;
    struct cut *cuts = cuts_together(f, &m, amounts, &count);
    struct remedy *last = f->found.count > 0 ? &f->found.items[f->found.count - 1] : NULL;
    if (after > f->target || (last != NULL && last->cut_count < count))
        return;
    if (last == NULL)
        last = remedy_add(f, REMEDY_CUTS, 0, after);
    *last = (struct remedy){.kind = REMEDY_CUTS, .cuts = cuts, .cut_count = count, .after = after};
    last->sentence = remedy_cuts_words(f->arena, f->dish, f->tables, f->reads, cuts, count);
}
