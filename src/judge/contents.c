#include "judge/contents.h"

#include "base/list.h"
#include "read/words.h"

static const char *const diet_labels[DIETS][6] = {
    [DIET_VEGAN] = {"vegan", "plant based", "plant", NULL},
    [DIET_VEGETARIAN] = {"vegetarian", "vegan", "veggie", "plant based", NULL},
    [DIET_GLUTEN_FREE] = {"gluten free", "gf", "certified gluten free", "free from gluten", NULL},
    [DIET_DAIRY_FREE] = {"dairy free", "vegan", "plant based", "plant", "non dairy", NULL},
};

bool
contents_line_says(struct arena *a, const struct helping *h, enum diet d)
{
    const struct slice texts[] = {h->written->name, h->written->after};
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        struct words w;
        words_read(a, NULL, texts[i], &w);
        if (words_any(&w, diet_labels[d], 0, w.count, NULL) != NULL)
            return true;
    }
    return false;
}

/* "ice-cold water", "pasta cooking water": not known by that name, but water all the same */
static bool
is_water(const struct helping *h)
{
    return slice_ends(slice_trim(h->written->name), "water");
}

static enum stands
diet_stands(struct arena *a, const struct helping *h, enum diet d)
{
    uint32_t bit = 1u << d;
    const bool doubt = (h->doubt_diets & bit) != 0;
    if (h->food != NULL && !doubt && (h->food->breaks & bit) == 0 && (h->food->labelled & bit) == 0)
        return STANDS_KEEPS;
    if (contents_line_says(a, h, d))
        return STANDS_KEEPS;
    if (h->food == NULL)
        return is_water(h) ? STANDS_KEEPS : STANDS_UNKNOWN;
    if ((h->food->breaks & bit) != 0)
        return STANDS_BREAKS;
    return doubt ? STANDS_UNKNOWN : STANDS_LABEL;
}

/* those of some allergens that the words on the line rule out */
static uint32_t
ruled_out(struct arena *a, const struct helping *h, uint32_t allergens)
{
    static const struct {
        enum diet diet;
        uint32_t out;
    } says[] = {
        {DIET_GLUTEN_FREE, 1u << ALLERGEN_GLUTEN | 1u << ALLERGEN_WHEAT},
        {DIET_DAIRY_FREE, 1u << ALLERGEN_MILK},
        {DIET_VEGAN, 1u << ALLERGEN_EGGS | 1u << ALLERGEN_MILK | 1u << ALLERGEN_FISH},
    };
    uint32_t out = 0;
    for (size_t i = 0; i < sizeof says / sizeof *says; i++)
        if ((says[i].out & allergens) != 0 && contents_line_says(a, h, says[i].diet))
            out |= says[i].out;
    return out;
}

static enum stands
allergens_stand(struct arena *a, const struct helping *h, uint32_t allergens)
{
    if (h->food == NULL)
        return is_water(h) ? STANDS_KEEPS : STANDS_UNKNOWN;
    const uint32_t maybe = h->food->may_carry | h->food->traces;
    const uint32_t carried = (h->food->allergens | maybe | h->doubt_allergens) & allergens;
    if (carried == 0)
        return STANDS_KEEPS;
    const uint32_t left = carried & ~ruled_out(a, h, carried);
    if ((h->food->allergens & left) != 0)
        return STANDS_BREAKS;
    if ((h->doubt_allergens & left) != 0)
        return STANDS_UNKNOWN;
    return (maybe & left) != 0 ? STANDS_LABEL : STANDS_KEEPS;
}

/* whether each food keeps to it whatever the line says, as most do to most: no more need be asked.
 * All foods are looked at, and noted. */
static bool
keeps(const struct ingredient *in, bool by_diet, enum diet diet, uint32_t allergens,
      struct reads *reads)
{
    bool keep = in->option_count > 0;
    for (size_t o = 0; o < in->option_count; o++)
        for (size_t k = 0; k < in->options[o].count; k++) {
            const struct helping *h = &in->options[o].helpings[k];
            const struct food *f = h->food;
            if (f == NULL || h->doubt_diets != 0 || h->doubt_allergens != 0) {
                keep = false;
                continue;
            }
            reads_note(reads, &f->identity);
            keep = keep && (by_diet ? (f->breaks | f->labelled) >> diet & 1
                                    : (f->allergens | f->may_carry | f->traces) & allergens) == 0;
        }
    return keep;
}

/* how one option stands: as the worst of its foods */
static enum stands
option_stands(struct arena *a, const struct dish_option *o, bool by_diet, enum diet diet,
              uint32_t allergens)
{
    enum stands worst = STANDS_KEEPS;
    for (size_t i = 0; i < o->count; i++) {
        const struct helping *h = &o->helpings[i];
        enum stands s = by_diet ? diet_stands(a, h, diet) : allergens_stand(a, h, allergens);
        worst = s > worst ? s : worst;
    }
    return worst;
}

/* whether something on the line that was not understood could hold one */
static bool
is_doubtful(const struct ingredient *in, uint32_t allergens)
{
    for (size_t o = 0; o < in->option_count; o++)
        for (size_t k = 0; k < in->options[o].count; k++) {
            if ((in->options[o].helpings[k].doubt_allergens & allergens) != 0)
                return true;
        }
    return false;
}

static void
add(struct arena *a, struct culprits *list, size_t ingredient)
{
    *LIST_GROW(a, list) = ingredient;
}

static void
weigh_up(struct arena *a, const struct dish *d, bool by_diet, enum diet diet, uint32_t allergens,
         struct reads *reads, struct contents *out)
{
    *out = (struct contents){0};
    for (size_t i = 0; i < d->count; i++) {
        const struct ingredient *in = &d->ingredients[i];
        size_t counts[STANDS_BREAKS + 1] = {0};
        if (keeps(in, by_diet, diet, allergens, reads))
            continue;
        for (size_t o = 0; o < in->option_count; o++)
            counts[option_stands(a, &in->options[o], by_diet, diet, allergens)]++;
        if (counts[STANDS_BREAKS] > 0 && counts[STANDS_BREAKS] == in->option_count && !in->optional)
            add(a, &out->breaking, i);
        else if (counts[STANDS_BREAKS] > 0)
            add(a, &out->choosing, i);
        if (counts[STANDS_LABEL] > 0)
            add(a, &out->labelling, i);
        if (counts[STANDS_UNKNOWN] > 0 || in->option_count == 0 ||
            (!by_diet && is_doubtful(in, allergens)))
            add(a, &out->unknowing, i);
    }
    out->breaks = out->breaking.count > 0;
    out->on_choice = out->choosing.count > 0;
    out->label = out->labelling.count > 0;
    out->unknown = out->unknowing.count > 0;
}

void
contents_of_diet(struct arena *a, const struct dish *d, enum diet diet, struct reads *reads,
                 struct contents *out)
{
    weigh_up(a, d, true, diet, 0, reads, out);
}

void
contents_of_allergens(struct arena *a, const struct dish *d, uint32_t allergens,
                      struct reads *reads, struct contents *out)
{
    weigh_up(a, d, false, DIET_VEGAN, allergens, reads, out);
}

void
contents_sum(const struct dish *d, struct reads *reads, struct contents_sum *out)
{
    *out = (struct contents_sum){0};
    for (size_t i = 0; i < d->count; i++) {
        const struct ingredient *in = &d->ingredients[i];
        out->unknown = out->unknown || in->option_count == 0;
        for (size_t o = 0; o < in->option_count; o++)
            for (size_t k = 0; k < in->options[o].count; k++) {
                const struct helping *h = &in->options[o].helpings[k];
                const struct food *f = h->food;
                out->unknown = out->unknown || f == NULL || h->doubt_allergens != 0;
                if (f == NULL)
                    continue;
                reads_note(reads, &f->identity);
                out->diets |= f->breaks | f->labelled;
                out->allergens |= f->allergens | f->may_carry | f->traces;
            }
    }
}
