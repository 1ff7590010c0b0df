#include "reckon/sheet.h"

#include <math.h>
#include <string.h>

/* g of a dried herb or spice in one portion: what a line without an amount ("to taste") adds at
 * most; common practice, no source */
static const double SEASONING_MOST = 0.5;
/* fat that is no more than fat: nothing that dissolves in water leaves it; g in 100 g */
static const double FAT_ALONE = 75;

struct building {
    struct arena *arena;
    struct reads *reads;
    double divisor;
    struct sheet *sheet;
    const struct sheet *before; /* what stayed is taken from it; NULL: nothing is */
    bool *changed;              /* by serve: not as before */
};

static bool
is_fat(const struct helping *h, struct reads *reads)
{
    const struct figure *fat = h->food == NULL ? NULL : food_nutrient(h->food, FAT, reads);
    return fat != NULL && figure_known(fat) && fat->span.mid >= FAT_ALONE;
}

/* Whether what is taken out of the pot was in fat alone: all else that the same part of the dish
 * lists is fat, or is taken out as well. */
static bool
is_in_fat(const struct dish *d, const struct ingredient *out, struct reads *reads)
{
    bool fat = false;
    for (size_t i = 0; i < d->count; i++) {
        const struct ingredient *in = &d->ingredients[i];
        if (in->part != out->part || (in->line.has_stays && in->line.stays.high <= 0))
            continue;
        for (size_t o = 0; o < in->option_count; o++)
            for (size_t k = 0; k < in->options[o].count; k++) {
                if (!is_fat(&in->options[o].helpings[k], reads))
                    return false;
                fat = true;
            }
    }
    return fat;
}

/* g in the whole dish that counts. What is strained out after cooking in water leaves its sugars
 * behind: all groups here dissolve in water. From fat they leave with it. */
static struct span
counted(const struct dish *d, const struct ingredient *in, const struct helping *h,
        struct reads *reads)
{
    const bool out = in->line.has_stays && in->line.stays.high <= 0;
    return out && !is_in_fat(d, in, reads) ? h->weighing.edible : h->eaten;
}

static struct distribution
spread_about(struct span s)
{
    return distribution_range(s.low, s.mid, s.high);
}

/* A counted food is that many draws of one piece: four tomatoes vary less, in parts, than one.
 * What else widens the amount (2-3 tomatoes, the share that is edible) stays as it is. */
static bool
spread_pieces(const struct weighing *w, struct span grams, struct distribution *out)
{
    const struct measured *m = w->used < w->count ? &w->measured[w->used] : NULL;
    if (m == NULL || !m->has_pieces || m->piece == NULL || !figure_known(m->piece) ||
        m->pieces.mid <= 0 || m->piece->span.mid <= 0 || m->grams.mid <= 0)
        return false;
    const struct span piece = m->piece->span;
    const double middle = m->pieces.mid * piece.mid;
    struct span rest = {grams.low / (piece.low > 0 ? piece.low / piece.mid : 1), grams.mid,
                        grams.high / (piece.high / piece.mid)};
    if (middle <= 0 || !span_valid(rest)) /* "+ 1 tsp" beside the pieces */
        return false;
    struct distribution one = spread_about(piece);
    struct distribution pieces = distribution_draws(&one, m->pieces.mid);
    pieces = distribution_scale(&pieces, 1 / middle);
    struct distribution about = spread_about(rest);
    *out = distribution_product(&pieces, &about);
    return true;
}

static double
extra_of(const struct helping *h, double grams)
{
    const bool seasoning = h->food != NULL && h->food->seasoning;
    if (h->weighing.known && !h->weighing.unmeasured)
        return 0;
    if (seasoning)
        return SEASONING_MOST;
    /* "plus extra" without an amount is taken as at most as much again */
    return h->weighing.known ? grams : INFINITY;
}

static bool
is_fresh(const struct helping *h)
{
    const struct food *f = h->food;
    return f != NULL && f->fresh &&
           (f->food_class == CLASS_FRUIT || f->food_class == CLASS_VEGETABLE) &&
           (h->form == NULL || strcmp(h->form->name, "tin") != 0);
}

/* the number of the food's entry, new where it has none; what the larder does not have is a food by
 * itself */
static size_t
entry_of(struct building *l, const struct food *f)
{
    struct sheet *s = l->sheet;
    for (size_t i = 0; f != NULL && i < s->entry_count; i++)
        if (s->entries[i].food == f)
            return i;
    struct sheet_entry *e = &s->entries[s->entry_count];
    struct composition *c = arena_take_raw(l->arena, sizeof *c);
    *e = (struct sheet_entry){.food = f, .serve = s->serve_count, .composition = c};
    for (size_t i = 0; f != NULL && i < s->entry_count; i++)
        if (s->entries[i].food != NULL && strcmp(food_lead(s->entries[i].food), food_lead(f)) == 0)
            e->serve = s->entries[i].serve;
    if (e->serve == s->serve_count)
        s->serve_count++;
    composition_reckon(f, s->tables, l->reads, c);
    return s->entry_count++;
}

static void
weigh_load(struct building *l, struct load *load)
{
    const struct dish *d = l->sheet->dish;
    const struct helping *h = load->helping;
    const struct composition *c = l->sheet->entries[load->entry].composition;
    if (h->weighing.known) {
        struct span grams =
            span_scale(counted(d, &d->ingredients[load->ingredient], h, l->reads), 1 / l->divisor);
        load->grams = grams.mid;
        if (((c->known | c->open) != 0 || (h->food != NULL && h->food->serves != NULL)) &&
            !spread_pieces(&h->weighing, grams, &load->amount))
            load->amount = spread_about(grams);
    }
    load->moments = moments_of(&load->amount);
    load->widths = widths_of(&load->amount, load->grams);
}

/* the same line's food in a portion of another size */
static void
resize_load(struct load *load, double part)
{
    load->grams *= part;
    load->amount = distribution_scale(&load->amount, part);
    load->moments = moments_times(load->moments, (struct moments){part, 0});
    load->widths = (struct widths){load->widths.below * part, load->widths.above * part};
}

/* the load of a helping that stayed as it was; what is taken out of the pot hangs on other lines */
static const struct load *
load_before(const struct building *l, const struct ingredient *in, const struct helping *h)
{
    const struct sheet *s = l->before;
    for (size_t i = 0; s != NULL && !in->line.has_stays && i < s->load_count; i++)
        if (s->loads[i].helping == h)
            return &s->loads[i];
    return NULL;
}

static void
build_load(struct building *l, size_t ingredient, size_t option, size_t number)
{
    const struct ingredient *in = &l->sheet->dish->ingredients[ingredient];
    const struct helping *h = &in->options[option].helpings[number];
    struct load *load = &l->sheet->loads[l->sheet->load_count++];
    const struct load *was = load_before(l, in, h);
    const double part = was == NULL ? 1 : dish_divisor(l->before->dish) / l->divisor;
    if (was != NULL)
        *load = *was;
    else
        *load = (struct load){.helping = h, .fresh = is_fresh(h)};
    load->ingredient = ingredient;
    load->option = option;
    load->number = number;
    if (was == NULL) {
        load->entry = entry_of(l, h->food);
        weigh_load(l, load);
    } else if (part != 1) {
        resize_load(load, part);
    }
    load->extra = extra_of(h, load->grams);
    if (l->changed != NULL && (was == NULL || part != 1))
        l->changed[l->sheet->entries[load->entry].serve] = true;
}

static void
build_row(struct building *l, size_t ingredient)
{
    struct sheet *s = l->sheet;
    const struct ingredient *in = &s->dish->ingredients[ingredient];
    struct sheet_row *row = &s->rows[ingredient];
    row->ways = arena_take_array(l->arena, in->option_count + 1, sizeof *row->ways);
    if (in->optional || in->option_count == 0)
        row->ways[row->count++] = (struct sheet_way){0, NULL, 0};
    for (size_t o = 0; o < in->option_count; o++) {
        struct sheet_way *way = &row->ways[row->count++];
        way->pick = (uint8_t)(o < 254 ? o + 1 : 255);
        way->loads = &s->loads[s->load_count];
        way->count = in->options[o].count;
        for (size_t k = 0; k < in->options[o].count; k++)
            build_load(l, ingredient, o, k);
    }
}

/* the loads of each entry, and the entries of each serve, in their order */
static void
link_entries(struct arena *a, struct sheet *s)
{
    s->serves = arena_take_raw(a, (s->serve_count + 1) * sizeof *s->serves);
    for (size_t i = 0; i < s->serve_count; i++)
        s->serves[i] = SIZE_MAX;
    for (size_t i = s->entry_count; i-- > 0;) {
        s->entries[i].first = NULL;
        s->entries[i].next = s->serves[s->entries[i].serve];
        s->serves[s->entries[i].serve] = i;
    }
    for (size_t i = s->load_count; i-- > 0;) {
        struct sheet_entry *e = &s->entries[s->loads[i].entry];
        s->loads[i].next = e->first;
        e->first = &s->loads[i];
    }
}

static size_t
helping_count(const struct dish *d)
{
    size_t count = 0;
    for (size_t i = 0; i < d->count; i++)
        for (size_t o = 0; o < d->ingredients[i].option_count; o++)
            count += d->ingredients[i].options[o].count;
    return count;
}

/* the lines, beside entries that are there already */
static void
build_lines(struct building *l)
{
    struct sheet *s = l->sheet;
    const struct dish *d = s->dish;
    if (d->portions_known && d->portions.high > l->divisor)
        s->larger = d->portions.high / l->divisor;
    s->loads = arena_take_raw(l->arena, (helping_count(d) + 1) * sizeof *s->loads);
    s->rows = arena_take_array(l->arena, d->count + 1, sizeof *s->rows);
    for (size_t i = 0; i < d->count; i++)
        build_row(l, i);
    link_entries(l->arena, s);
}

void
sheet_build(struct arena *a, const struct dish *d, const struct tables *t, struct reads *reads,
            struct sheet *out)
{
    struct building l = {a, reads, dish_divisor(d), out, NULL, NULL};
    *out = (struct sheet){.dish = d, .tables = t, .count = d->count, .larger = 1};
    out->entries = arena_take_raw(a, (helping_count(d) + 1) * sizeof *out->entries);
    build_lines(&l);
}

static bool
has_helping(const struct sheet *s, const struct helping *h)
{
    for (size_t i = 0; i < s->load_count; i++)
        if (s->loads[i].helping == h)
            return true;
    return false;
}

void
sheet_change(struct arena *a, const struct sheet *before, const struct dish *d, struct reads *reads,
             struct sheet *out, bool **changed)
{
    const size_t most = before->entry_count + helping_count(d) + 1;
    *changed = arena_take_array(a, most, sizeof **changed);
    struct building l = {a, reads, dish_divisor(d), out, before, *changed};
    *out = (struct sheet){.dish = d, .tables = before->tables, .count = d->count, .larger = 1};
    out->entries = arena_take_raw(a, most * sizeof *out->entries);
    memcpy(out->entries, before->entries, before->entry_count * sizeof *out->entries);
    out->entry_count = before->entry_count;
    out->serve_count = before->serve_count;
    build_lines(&l);
    for (size_t i = 0; i < before->load_count; i++)
        if (!has_helping(out, before->loads[i].helping))
            (*changed)[before->entries[before->loads[i].entry].serve] = true;
}

const struct load *
sheet_load(const struct sheet *s, size_t ingredient, size_t option, size_t number)
{
    for (size_t i = 0; i < s->load_count; i++)
        if (s->loads[i].ingredient == ingredient && s->loads[i].option == option &&
            s->loads[i].number == number)
            return &s->loads[i];
    return NULL;
}

static struct span
span_of(const struct distribution *d, double mid)
{
    return (struct span){fmin(distribution_quantile(d, 0.05), mid), mid,
                         fmax(distribution_quantile(d, 0.95), mid)};
}

struct span
load_grams(const struct load *l)
{
    return span_of(&l->amount, l->grams);
}

struct span
load_brings(const struct sheet *s, const struct load *l, enum group g)
{
    const struct content *c = &s->entries[l->entry].composition->groups[g];
    struct distribution d = composition_spread(s->entries[l->entry].composition, g);
    d = distribution_product(&l->amount, &d);
    d = distribution_scale(&d, 0.01);
    return span_of(&d, l->grams * c->mid / 100);
}
