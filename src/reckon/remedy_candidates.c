#include "reckon/remedy_candidates.h"

#include <string.h>

#include "read/stem.h"
#include "reckon/remedy_change.h"
#include "tables/larder.h"

/* a load that brings less than this part of what is too much is not worth a change */
static const double PART_LEAST = 0.1;

/* swaps of one food that are tried */
enum { SWAPS_MOST = 2 };

struct building {
    struct arena *arena;
    const struct remedy_asked *asked;
    struct reads *reads;
    struct candidates *out;
};

size_t
candidates_serve(const struct remedy_asked *asked, const struct load *l)
{
    return asked->sheet->entries[l->entry].serve;
}

static uint64_t
serve_bit(const struct building *y, const struct load *l)
{
    const size_t serve = candidates_serve(y->asked, l);
    return UINT64_C(1) << (serve < 63 ? serve : 63);
}

/* middle g that a load brings to a column */
static double
brings(const struct sheet *s, const struct load *l, size_t column)
{
    if (column == SERVED)
        return l->grams;
    const struct content *c = s->entries[l->entry].composition->groups;
    const double content = column < GROUPS
                               ? c[column].mid
                               : c[EXCESS_FRUCTOSE].mid + c[OLIGOSACCHARIDES].mid + c[POLYOLS].mid;
    return content * l->grams / 100;
}

static void
add_culprit(struct building *y, const struct load *l, const struct limit_stand *limit)
{
    struct candidates *out = y->out;
    for (size_t i = 0; i < out->culprit_count; i++)
        if (out->culprits[i].load == l)
            return;
    if (out->culprit_count < CULPRITS_MOST)
        out->culprits[out->culprit_count++] =
            (struct culprit){l, limit->standing == STANDING_UNKNOWN};
}

/* the loads of one limit that is not within, those that bring most first */
static void
add_culprits(struct building *y, const struct limit_stand *limit)
{
    const struct sheet *s = y->asked->sheet;
    const bool alone = limit->of.serve != SIZE_MAX;
    const struct load *last = NULL;
    double all = 0, least = 1e30;
    if (limit->worst.lack.load != NULL && limit->standing == STANDING_UNKNOWN)
        add_culprit(y, limit->worst.lack.load, limit);
    for (size_t i = 0; i < s->load_count; i++)
        if (!alone || candidates_serve(y->asked, &s->loads[i]) == limit->of.serve)
            all += brings(s, &s->loads[i], limit->of.column);
    for (;;) {
        const struct load *next = NULL;
        double most = PART_LEAST * all;
        for (size_t i = 0; i < s->load_count; i++) {
            const double b = brings(s, &s->loads[i], limit->of.column);
            if (b > most && (b < least || (b == least && &s->loads[i] > last)) &&
                (!alone || candidates_serve(y->asked, &s->loads[i]) == limit->of.serve)) {
                most = b;
                next = &s->loads[i];
            }
        }
        if (next == NULL)
            return;
        add_culprit(y, next, limit);
        last = next;
        least = most;
    }
}

/* limits of one food first: those foods have to be changed, whatever else is */
static void
find_culprits(struct building *y)
{
    const struct phase_stand *stand = y->asked->stand;
    for (int alone = 1; alone >= 0; alone--)
        for (size_t i = 0; i < stand->limit_count; i++) {
            const struct limit_stand *limit = &stand->limits[i];
            if (limit->standing == STANDING_WITHIN || (limit->of.serve != SIZE_MAX) != (alone != 0))
                continue;
            const uint64_t bit = UINT64_C(1) << (limit->of.serve < 63 ? limit->of.serve : 63);
            y->out->must |= alone ? bit : 0;
            y->out->must_over |= alone && limit->standing == STANDING_OVER ? bit : 0;
            add_culprits(y, limit);
        }
}

/* the noun that a name ends in: "red onion" is an onion */
static struct stem
head_of(struct arena *a, const char *name)
{
    struct words w = {.count = 0};
    words_read(a, NULL, slice_of(name), &w);
    size_t last = 0;
    for (size_t i = 1; i < w.count && !word_is(&w.items[i], ",") && !word_is(&w.items[i], "("); i++)
        last = w.items[i].kind == WORD_LETTERS ? i : last;
    return w.count > 0 ? stem_of(a, w.items[last].folded) : stem_of(a, SLICE(""));
}

static bool
title_has(const struct building *y, const struct stem *head)
{
    const struct words *title = y->asked->title;
    for (size_t i = 0; title != NULL && i < title->count; i++) {
        const struct stem word = stem_of(y->arena, title->items[i].folded);
        if (stem_equal(&word, head))
            return true;
    }
    return false;
}

/* whether the dish is named for the food of a load, in the line's words or the larder's */
static bool
is_named(const struct building *y, const struct helping *h)
{
    const char *name = slice_string(y->arena, h->written->name);
    struct stem head = head_of(y->arena, name);
    if (title_has(y, &head) || h->food == NULL)
        return title_has(y, &head);
    head = head_of(y->arena, foods_shown(h->food, y->asked->sheet->dish->region, NULL));
    if (title_has(y, &head))
        return true;
    head = head_of(y->arena, h->food->name);
    return title_has(y, &head);
}

static void
add_candidate(struct building *y, const struct change *change, uint64_t serves)
{
    struct candidates *out = y->out;
    for (size_t i = 0; i < out->count; i++) {
        const struct change *c = &out->items[i].change;
        if (c->kind == change->kind && c->ingredient == change->ingredient &&
            c->option == change->option && c->helping == change->helping && c->swap == change->swap)
            return;
    }
    if (out->count < CANDIDATES_MOST)
        out->items[out->count++] = (struct candidate){*change, serves};
}

static uint64_t
row_serves(const struct building *y, size_t ingredient)
{
    const struct sheet *s = y->asked->sheet;
    uint64_t serves = 0;
    for (size_t i = 0; i < s->load_count; i++)
        if (s->loads[i].ingredient == ingredient)
            serves |= serve_bit(y, &s->loads[i]);
    return serves;
}

static void
add_options(struct building *y, const struct load *l)
{
    const struct ingredient *in = &y->asked->sheet->dish->ingredients[l->ingredient];
    for (size_t o = 0; in->option_count > 1 && o < in->option_count; o++) {
        struct change c = {.kind = CHANGE_OPTION, .ingredient = l->ingredient, .option = o};
        if (o != l->option)
            add_candidate(y, &c, row_serves(y, l->ingredient));
    }
}

static void
add_leaving(struct building *y, const struct load *l)
{
    const struct dish *d = y->asked->sheet->dish;
    const struct ingredient *in = &d->ingredients[l->ingredient];
    const char *const *garnish = swaps_garnish(&y->asked->sheet->tables->swaps, y->reads);
    struct change c = {.kind = CHANGE_LEAVE, .ingredient = l->ingredient};
    if (in->optional ||
        (in->words != NULL && words_have(in->words, garnish) && !is_named(y, l->helping)))
        add_candidate(y, &c, row_serves(y, l->ingredient));
}

/* what all foods of a dish together break and hold */
static void
dish_keeps(const struct dish *d, uint32_t *breaks, uint32_t *allergens)
{
    *breaks = *allergens = 0;
    for (size_t i = 0; i < d->count; i++)
        for (size_t o = 0; o < d->ingredients[i].option_count; o++)
            for (size_t k = 0; k < d->ingredients[i].options[o].count; k++) {
                const struct food *f = d->ingredients[i].options[o].helpings[k].food;
                *breaks |= f != NULL ? f->breaks : 0;
                *allergens |= f != NULL ? f->allergens : 0;
            }
}

static bool
dish_holds(const struct sheet *s, const char *const *ids)
{
    for (size_t i = 0; i < s->load_count; i++)
        for (const char *const *id = ids; *id != NULL; id++)
            if (s->loads[i].helping->food != NULL &&
                strcmp(s->loads[i].helping->food->id, *id) == 0)
                return true;
    return false;
}

/* whether the dish stays what it is named for: lactose-free milk is milk */
static bool
keeps_name(const struct building *y, const struct helping *h, const struct food *use)
{
    const struct stem was = head_of(y->arena, h->food->name), is = head_of(y->arena, use->name);
    return stem_equal(&was, &is) || !is_named(y, h);
}

/* whether a swap does the food's work in this dish, and spoils nothing that the dish is; the serves
 * that it changes */
static bool
swap_fits(const struct building *y, const struct swap *swap, const struct food *use,
          uint64_t *serves)
{
    const struct sheet *s = y->asked->sheet;
    uint32_t breaks, allergens;
    double grams = 0;
    dish_keeps(s->dish, &breaks, &allergens);
    if ((use->breaks & ~breaks) != 0 || (use->allergens & ~allergens) != 0 ||
        dish_holds(s, swap->not_with))
        return false;
    *serves = 0;
    for (size_t i = 0; i < s->load_count; i++) {
        const struct load *l = &s->loads[i];
        if (!change_swaps(swap, l->helping))
            continue;
        if (!l->helping->weighing.known || !keeps_name(y, l->helping, use))
            return false;
        grams += l->grams;
        *serves |= serve_bit(y, l);
    }
    return swap->up_to <= 0 || grams <= swap->up_to;
}

/* whether the line offers a food already */
static bool
is_option(const struct building *y, const struct load *l, const struct food *use)
{
    const struct ingredient *in = &y->asked->sheet->dish->ingredients[l->ingredient];
    for (size_t o = 0; o < in->option_count; o++)
        for (size_t k = 0; k < in->options[o].count; k++)
            if (in->options[o].helpings[k].food == use)
                return true;
    return false;
}

static void
add_swaps(struct building *y, const struct load *l)
{
    const struct tables *t = y->asked->sheet->tables;
    const struct food *f = l->helping->food;
    size_t count = 0;
    if (f == NULL)
        return;
    for (const struct swap *swap = swaps_next(&t->swaps, f->id, NULL, y->reads);
         swap != NULL && count < SWAPS_MOST; swap = swaps_next(&t->swaps, f->id, swap, y->reads)) {
        const struct food *use = larder_by_id(t->larder, slice_of(swap->use));
        uint64_t serves;
        if (use == NULL || is_option(y, l, use) || !swap_fits(y, swap, use, &serves))
            continue;
        struct change c = {.kind = CHANGE_SWAP, .swap = swap, .use = use};
        add_candidate(y, &c, serves);
        count++;
    }
}

static void
add_cut(struct building *y, const struct load *l)
{
    struct change c = {
        .kind = CHANGE_CUT, .ingredient = l->ingredient, .option = l->option, .helping = l->number};
    if (l->helping->weighing.known)
        add_candidate(y, &c, serve_bit(y, l));
}

void
candidates_find(struct arena *a, const struct remedy_asked *asked, struct reads *reads,
                struct candidates *out)
{
    static void (*const kinds[])(struct building *, const struct load *) = {add_options,
                                                                            add_leaving, add_swaps};
    struct building y = {a, asked, reads, out};
    memset(out, 0, sizeof *out);
    find_culprits(&y);
    for (size_t k = 0; k < sizeof kinds / sizeof *kinds; k++)
        for (size_t i = 0; i < out->culprit_count; i++)
            kinds[k](&y, out->culprits[i].load);
    for (size_t i = 0; i < out->culprit_count; i++)
        if (!out->culprits[i].unknown)
            add_cut(&y, out->culprits[i].load);
}
