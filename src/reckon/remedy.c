#include "reckon/remedy.h"

#include <math.h>
#include <string.h>

#include "base/list.h"
#include "reckon/household.h"
#include "reckon/remedy_words.h"

/* less than this part of a line, or of a portion, is another dish; common practice, no source */
static const double LINE_LEAST = 1.0 / 3, PORTION_LEAST = 2.0 / 3;
/* a rounded amount that still is a little too much is tried again at this part of it */
static const double SHRINK = 0.85;

enum { SHRINKS_MOST = 8 };

struct remedy_search {
    struct arena *arena;
    const struct dish *dish;
    const struct tables *tables;
    struct reads *reads;
    int phase;
    const struct phase_stand *stand;
    LIST_OF(struct remedy) found;
};

static enum standing
stand_of(const struct remedy_search *f, const struct dish *d)
{
    struct phase_stand stand;
    portion_stand(f->arena, d, f->tables, f->phase, NULL, &stand);
    return stand.standing;
}

/* a dish whose list of ingredients can be changed without touching the one it was copied from */
static struct dish
copy_dish(const struct remedy_search *f)
{
    struct dish d = *f->dish;
    d.ingredients = arena_take_array(f->arena, d.count + 1, sizeof *d.ingredients);
    memcpy(d.ingredients, f->dish->ingredients, d.count * sizeof *d.ingredients);
    return d;
}

static struct remedy *
add(struct remedy_search *f, enum remedy_kind kind, double amount)
{
    struct remedy *r = LIST_GROW(f->arena, &f->found);
    *r = (struct remedy){.kind = kind, .amount = amount, .after = STANDING_WITHIN};
    return r;
}

static void
try_choices(struct remedy_search *f, const struct choices *c)
{
    bool drops = true;
    if (c->settle_count == 0 || c->settled > STANDING_WITHIN)
        return;
    for (size_t k = 0; k < c->settle_count; k++)
        drops = drops && c->settle[2 * k + 1] == 0;
    struct remedy *r = add(f, drops ? REMEDY_DROP : REMEDY_ALTERNATIVE, 0);
    r->cuts = arena_take_array(f->arena, c->settle_count, sizeof *r->cuts);
    r->cut_count = c->settle_count;
    for (size_t k = 0; k < c->settle_count; k++) {
        const size_t pick = c->settle[2 * k + 1];
        r->cuts[k] = (struct cut){.settles = true,
                                  .ingredient = c->settle[2 * k],
                                  .option = pick == 0 ? SIZE_MAX : pick - 1};
        r->amount = (double)pick;
    }
    r->sentence = remedy_settle_words(f->arena, f->dish, c->settle, c->settle_count);
}

/* the dish with `kept` of one helping */
static struct dish
cut_dish(const struct remedy_search *f, const struct cut *cut, double kept)
{
    struct dish d = copy_dish(f);
    struct ingredient *in = &d.ingredients[cut->ingredient];
    const struct dish_option *was = in->options;
    in->options = arena_take_array(f->arena, in->option_count + 1, sizeof *in->options);
    memcpy(in->options, was, in->option_count * sizeof *in->options);
    struct dish_option *o = &in->options[cut->option];
    o->helpings = arena_take_array(f->arena, o->count + 1, sizeof *o->helpings);
    memcpy(o->helpings, was[cut->option].helpings, o->count * sizeof *o->helpings);
    struct helping *h = &o->helpings[cut->helping];
    h->eaten = span_scale(h->eaten, kept);
    h->weighing.grams = span_scale(h->weighing.grams, kept);
    h->weighing.edible = span_scale(h->weighing.edible, kept);
    return d;
}

static void
try_cut(struct remedy_search *f, const struct load *l)
{
    struct cut cut = {.ingredient = l->ingredient, .option = l->option, .helping = l->number};
    const struct ingredient *in = &f->dish->ingredients[l->ingredient];
    if (!l->helping->weighing.known || in->option_count + in->optional > 1)
        return;
    double factor = SHRINK;
    for (int i = 0; i < SHRINKS_MOST && factor >= LINE_LEAST; i++, factor *= SHRINK) {
        double kept;
        if (!household_part(f->arena, l->helping, factor, f->dish->region, f->tables, f->reads,
                            &cut.words, &kept) ||
            kept < LINE_LEAST)
            return;
        struct dish d = cut_dish(f, &cut, kept);
        if (stand_of(f, &d) > STANDING_WITHIN)
            continue;
        struct remedy *r = add(f, REMEDY_REDUCE, 0);
        cut.grams = l->helping->weighing.grams.mid * kept;
        r->cuts = arena_take(f->arena, sizeof *r->cuts);
        *r->cuts = cut;
        r->cut_count = 1;
        r->sentence = remedy_cuts_words(f->arena, f->dish, f->tables, f->reads, &cut, 1);
        return;
    }
}

static void
try_portion(struct remedy_search *f)
{
    const struct dish *d = f->dish;
    if (d->yield_kind == YIELD_NONE || d->portion.high <= 0)
        return;
    const double was = d->portion.high;
    const double step = d->yield_kind == YIELD_COUNT ? 1 : was < 20 ? 1 : 5;
    for (double amount = was - step; amount >= was * PORTION_LEAST && amount > 0; amount -= step) {
        struct dish smaller = *d;
        smaller.portion = span_exact(amount);
        smaller.portions = span_over(d->yield, smaller.portion);
        if (stand_of(f, &smaller) > STANDING_WITHIN)
            continue;
        struct remedy *r = add(f, REMEDY_PORTION, amount);
        r->sentence = remedy_portion_words(f->arena, d, f->tables, f->reads, amount, was);
        return;
    }
}

void
remedies_find(struct arena *a, const struct dish *d, const struct tables *t, struct reads *reads,
              int phase, const struct phase_stand *stand, const struct choices *choices,
              struct remedies *out)
{
    memset(out, 0, sizeof *out);
    if (stand->standing == STANDING_WITHIN || !d->portions_known)
        return;
    struct remedy_search f = {
        .arena = a, .dish = d, .tables = t, .reads = reads, .phase = phase, .stand = stand};
    try_choices(&f, choices);
    for (size_t i = 0; f.found.count == 0 && i < stand->limit_count &&
                       stand->limits[i].standing > STANDING_WITHIN;
         i++)
        if (stand->limits[i].worst.chief != NULL)
            try_cut(&f, stand->limits[i].worst.chief);
    if (f.found.count < 2)
        try_portion(&f);
    out->items = f.found.items;
    out->count = f.found.count;
    for (size_t i = 0; i < out->count; i++)
        out->items[i].told = remedy_words(a, d, t, reads, d->region, &out->items[i]);
}
