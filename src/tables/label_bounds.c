#include "tables/label_bounds.h"

#include <math.h>
#include <string.h>

#include "read/words.h"
#include "tables/food_most.h"
#include "tables/label_mix.h"

/* g in 100 g of declared protein, fat, carbohydrate and salt, from which on a food is dry; common
 * practice, no source */
static const double DRY = 60;
/* how many times as much a vegetable holds when it is dried, where its water is not known */
static const double TIMES_DRIED = 10;
static const double SALT_OF_SODIUM = 2.5;
/* g in 100 g: less is nothing */
static const double NOTHING = 0.0005;

enum { TOLD_MOST = 3 };

static double
nutrient(const struct food *f, enum nutrient n)
{
    return figure_known(&f->nutrients[n]) ? f->nutrients[n].span.low : 0;
}

/* g in 100 g that the packet declares to be no water */
static double
declared_solids(const struct label *l)
{
    const struct label_amount *n = l->nutrients;
    return n[PROTEIN].low + n[FAT].low + n[CARBOHYDRATE].low + (l->fibre_apart ? n[FIBRE].low : 0) +
           SALT_OF_SODIUM * n[SODIUM_MG].low;
}

/* In a dry food what is named as fresh may have gone in dried: then it holds so many times as much
 * as its own protein, fat and carbohydrate are in the whole of it. */
static double
times_dried(const struct label *l, const struct food *f)
{
    const double solids = nutrient(f, PROTEIN) + nutrient(f, FAT) + nutrient(f, CARBOHYDRATE);
    if (!f->fresh || declared_solids(l) < DRY)
        return 1;
    return solids > 0 ? fmax(100 / solids, 1) : TIMES_DRIED;
}

/* what 100 g of an ingredient hold; one that nobody knows may be all of it, but lactose only where
 * milk is named */
static struct holding
holds(const struct label_work *w, const struct label_part *p, enum group g)
{
    if (!p->counted)
        return (struct holding){{0, 0, 0}, 0};
    if (p->food != NULL) {
        struct holding held = food_holds(w->larder, p->food, g);
        held.most = fmin(held.most * times_dried(w->food->label, p->food), 100);
        return held;
    }
    const bool milk = (w->food->allergens >> ALLERGEN_MILK & 1) != 0;
    return (struct holding){{0, 0, 0}, g == LACTOSE && !milk ? 0 : 100};
}

/* what the figures of the packet leave to a group, g in 100 g */
static double
declared_most(const struct label *l, enum group g)
{
    const struct label_amount *n = l->nutrients;
    if (g == LACTOSE || g == EXCESS_FRUCTOSE)
        return n[SUGARS].given ? n[SUGARS].high : INFINITY;
    if (!n[CARBOHYDRATE].given)
        return INFINITY;
    double most = n[CARBOHYDRATE].high - n[SUGARS].low - l->starch.low;
    if (group_sum(g) == POLYOLS)
        return l->polyols.given ? fmin(l->polyols.high, most) : most;
    if (l->fibre_apart)
        most += n[FIBRE].given ? n[FIBRE].high : INFINITY;
    return fmax(most - l->polyols.low, 0);
}

/* rounded away from what it bounds, to three digits */
static double
rounded(double x, bool up)
{
    if (!(x > 0))
        return 0;
    const double unit = pow(10, floor(log10(x)) - 2);
    return up ? ceil(x / unit - 1e-6) * unit : floor(x / unit + 1e-6) * unit;
}

/* one group while its ends are found */
struct finding_group {
    const struct label_work *work;
    const struct mix *mix;
    enum group group;
    struct holding *each; /* of each ingredient */
};

static double
brings(const struct finding_group *f, const struct ends *ends, size_t i)
{
    return f->each[i].most * ends->at[i] / 100;
}

/* ", as by 8 g onion powder and 2 g garlic in 100 g": what brings most where it is most */
static void
add_bringers(const struct finding_group *f, const struct ends *ends, struct text *t)
{
    size_t told[TOLD_MOST], count = 0;
    for (; count < TOLD_MOST; count++) {
        size_t best = SIZE_MAX;
        for (size_t i = 0; i < f->mix->label->part_count; i++) {
            bool again = brings(f, ends, i) <= ends->most / 20;
            for (size_t k = 0; k < count; k++)
                again = again || told[k] == i;
            if (!again && (best == SIZE_MAX || brings(f, ends, i) > brings(f, ends, best)))
                best = i;
        }
        if (best == SIZE_MAX)
            break;
        told[count] = best;
        text_add_string(t, count == 0 ? ", as by " : " and ");
        text_add_number(t, rounded(ends->at[best], true), 2);
        text_addf(t, " g %.*s", SLICE_ARGS(f->mix->label->parts[best].name));
    }
    text_add_string(t, count > 0 ? " in 100 g" : "");
}

static const char *
keep(const struct finding_group *f, const struct text *t)
{
    return slice_string(f->work->larder->arena, text_slice(t));
}

static bool
has_milk(const struct food *f)
{
    return ((f->allergens | f->may_carry) >> ALLERGEN_MILK & 1) != 0;
}

static double
set_most(const struct finding_group *f, const struct ends *ends)
{
    const bool sugar = f->group == LACTOSE || f->group == EXCESS_FRUCTOSE;
    struct food *food = f->work->food;
    struct text t = text_new(f->work->scratch);
    const double declared = declared_most(f->mix->label, f->group);
    const double most = fmin(fmin(ends->most, declared), 100);
    text_addf(&t, "%s: ", f->mix->label->source);
    if (most <= NOTHING) {
        text_add_string(&t, f->group == LACTOSE && !has_milk(food)
                                ? "it has no milk in it"
                                : "nothing on its list holds any");
        food->contents[f->group] =
            (struct figure){.kind = FIGURE_NONE, .source = keep(f, &t), .basis = BASIS_CALCULATED};
        return 0;
    }
    if (declared < ends->most) {
        text_add_string(&t, sugar ? "no more than its sugars"
                                  : "no more than its carbohydrate beside the sugars");
    } else if (ends->most >= 100) {
        text_add_string(&t, "nothing that it says bounds it");
    } else {
        text_add_string(&t, "the most that its list lets be");
        add_bringers(f, ends, &t);
    }
    food->bounds[f->group] = (struct figure){.kind = FIGURE_BELOW,
                                             .span = {0, 0, rounded(most, true)},
                                             .source = keep(f, &t),
                                             .basis = BASIS_CALCULATED};
    return most;
}

static double
least_of(const struct finding_group *f, double (*weight)(const struct span *))
{
    const size_t count = f->mix->label->part_count;
    double *weights = arena_take_array(f->work->scratch, count, sizeof *weights);
    struct ends ends;
    for (size_t i = 0; i < count; i++)
        weights[i] = weight(&f->each[i].known) / 100;
    label_mix_ends(f->mix, weights, &ends);
    return ends.least;
}

static double
low_of(const struct span *s)
{
    return s->low;
}

static double
mid_of(const struct span *s)
{
    return s->mid;
}

static double
high_of(const struct span *s)
{
    return s->high;
}

/* Fructose counts in excess of the glucose of the whole food: where another ingredient may hold
 * more glucose than fructose, or nobody knows, there may be none. */
static bool
is_outweighed(const struct finding_group *f)
{
    const struct label_work *w = f->work;
    const char *const *words = word_lists_all(w->larder->words, WORDS_LABEL_GLUCOSE);
    for (size_t i = 0; f->group == EXCESS_FRUCTOSE && i < f->mix->label->part_count; i++) {
        const struct label_part *p = &f->mix->label->parts[i];
        struct words name;
        if (!p->counted || f->each[i].known.mid > 0)
            continue;
        words_read(w->scratch, w->larder->words, p->name, &name);
        if (p->food == NULL || words_have(&name, words))
            return true;
    }
    return false;
}

/* what is there at the least, by the low, middle and high of its figures; what more there may be is
 * open up to the bound */
static void
set_least(const struct finding_group *f, double most)
{
    struct food *food = f->work->food;
    struct span least = {0, least_of(f, mid_of), 0};
    if (least.mid <= NOTHING || is_outweighed(f))
        return;
    least.low = fmin(least_of(f, low_of), least.mid);
    least.high = fmin(fmax(least_of(f, high_of), least.mid), fmax(most, least.mid));
    food->contents[f->group] = (struct figure){
        .span = {rounded(least.low, false), rounded(least.mid, false), rounded(least.high, false)},
        .source = text_format(f->work->larder->arena, "%s: the least that its list lets be",
                              f->mix->label->source),
        .basis = BASIS_CALCULATED};
}

/* whether a sum's least says no more than those of its parts */
static bool
is_said_by_parts(const struct food *f, enum group g)
{
    double parts = 0;
    for (enum group part = 0; part < GROUPS; part++)
        if (groups_is_part(part, g) && figure_known(&f->contents[part]))
            parts += f->contents[part].span.mid;
    return groups_is_sum(g) && f->contents[g].kind != FIGURE_NONE &&
           f->contents[g].span.mid <= parts * 1.01 + NOTHING;
}

static void
settle_group(const struct label_work *w, const struct mix *m, enum group g)
{
    const size_t count = m->label->part_count;
    struct food *food = w->food;
    struct finding_group f = {w, m, g, arena_take_array(w->scratch, count, sizeof *f.each)};
    double *weights = arena_take_array(w->scratch, count, sizeof *weights);
    struct ends ends;
    if (figure_known(&food->contents[g]) || figure_known(&food->bounds[g]))
        return; /* the writer says it */
    for (size_t i = 0; i < count; i++) {
        f.each[i] = holds(w, &m->label->parts[i], g);
        weights[i] = f.each[i].most / 100;
    }
    const bool fits = label_mix_ends(m, weights, &ends) && count > 0;
    if (!fits) /* its own figures alone bound it */
        ends.most = 100;
    if (g == LACTOSE && m->label->states_allergens && !has_milk(food))
        ends.most = 0; /* the law makes it name milk */
    const double most = set_most(&f, &ends);
    if (most > 0 && fits)
        set_least(&f, most);
    if (is_said_by_parts(food, g))
        food->contents[g] = (struct figure){.basis = BASIS_NONE};
}

/* how much of each ingredient there can be */
static void
settle_parts(const struct label_work *w, const struct mix *m)
{
    const size_t count = m->label->part_count;
    double *weights = arena_take_array(w->scratch, count, sizeof *weights);
    for (size_t i = 0; i < count; i++) {
        struct label_part *p = &w->food->label->parts[i];
        struct ends ends;
        if (p->passed)
            continue;
        weights[i] = 1;
        if (label_mix_ends(m, weights, &ends)) {
            p->grams_least = fmax(rounded(ends.least, false), 0);
            p->grams_most = rounded(ends.most, true);
        }
        weights[i] = 0;
    }
}

void
label_bounds_settle(const struct label_work *w)
{
    const struct label *l = w->food->label;
    struct mix m = label_mix(w->scratch, l, true);
    double *weights = arena_take_array(w->scratch, l->part_count, sizeof *weights);
    struct ends ends;
    if (l->part_count > 0 && !label_mix_ends(&m, weights, &ends)) {
        m = label_mix(w->scratch, l, false);
        const bool list = !label_mix_ends(&m, weights, &ends);
        notice_add(w->notices, RULE_LABEL_CONTRADICTS, l->list_place, slice_of(w->food->id),
                   list ? SLICE("percentages and order of its list") : SLICE("figures and list"));
    }
    for (enum group g = 0; g < GROUPS; g++)
        if (!groups_is_sum(g))
            settle_group(w, &m, g);
    for (enum group g = 0; g < GROUPS; g++)
        if (groups_is_sum(g))
            settle_group(w, &m, g);
    settle_parts(w, &m);
}
