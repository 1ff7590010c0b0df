#include "reckon/remedy_change.h"

#include <math.h>
#include <string.h>

bool
change_swaps(const struct swap *s, const struct helping *h)
{
    for (const char **id = s->of; h->food != NULL && *id != NULL; id++)
        if (strcmp(h->food->id, *id) == 0)
            return true;
    return false;
}

static struct helping
swapped(struct arena *a, const struct helping *h, const struct change *c)
{
    struct written_food *written = arena_take(a, sizeof *written);
    written->name = slice_of(c->use->name);
    struct helping new = *h;
    const struct form *form = &c->use->forms[0];
    const struct figure *share = figure_known(&form->edible) ? &form->edible : NULL;
    new.written = written;
    new.food = c->use;
    new.form = form;
    new.eaten = span_scale(h->eaten, c->swap->ratio);
    memset(&new.weighing, 0, sizeof new.weighing);
    new.weighing.known = h->weighing.known;
    new.weighing.unmeasured = h->weighing.unmeasured;
    new.weighing.edible = span_scale(h->weighing.edible, c->swap->ratio);
    new.weighing.edible_share = share;
    new.weighing.grams = new.weighing.edible;
    if (share != NULL && share->span.mid > 0)
        new.weighing.grams = span_scale(new.weighing.edible, 1 / share->span.mid);
    return new;
}

static void
cut(struct helping *h, double kept)
{
    h->eaten = span_scale(h->eaten, kept);
    h->weighing.grams = span_scale(h->weighing.grams, kept);
    h->weighing.edible = span_scale(h->weighing.edible, kept);
}

/* options and helpings that can be changed */
static void
copy_options(struct arena *a, struct ingredient *in)
{
    struct dish_option *options = arena_take_array(a, in->option_count + 1, sizeof *options);
    for (size_t o = 0; o < in->option_count; o++) {
        options[o] = in->options[o];
        options[o].helpings = arena_take_array(a, options[o].count + 1, sizeof(struct helping));
        memcpy(options[o].helpings, in->options[o].helpings,
               options[o].count * sizeof(struct helping));
    }
    in->options = options;
}

static void
swap_ingredient(struct arena *a, struct ingredient *in, const struct change *c)
{
    bool copied = false;
    for (size_t o = 0; o < in->option_count; o++)
        for (size_t k = 0; k < in->options[o].count; k++) {
            if (!change_swaps(c->swap, &in->options[o].helpings[k]))
                continue;
            if (!copied)
                copy_options(a, in);
            copied = true;
            in->options[o].helpings[k] = swapped(a, &in->options[o].helpings[k], c);
        }
}

double
change_portion_said(const struct dish *d)
{
    if (d->yield_kind == YIELD_NONE || d->portion.high <= 0)
        return 0;
    const double made = d->yield.low / d->portion.high;
    return fabs(made - dish_divisor(d)) < 1e-6 * made ? d->portion.high : 0;
}

static void
make_smaller(struct dish *d, double amount)
{
    if (change_portion_said(d) <= 0) {
        d->portions = span_exact(amount);
        return;
    }
    d->portion = span_exact(amount);
    d->portions = span_over(d->yield, d->portion);
}

struct dish
change_apply(struct arena *a, const struct dish *d, const struct change *changes, size_t count)
{
    struct dish out = *d;
    out.ingredients = arena_take_array(a, d->count + 1, sizeof *out.ingredients);
    memcpy(out.ingredients, d->ingredients, d->count * sizeof *out.ingredients);
    for (size_t i = 0; i < count; i++) {
        const struct change *c = &changes[i];
        struct ingredient *in = &out.ingredients[c->ingredient];
        switch (c->kind) {
        case CHANGE_OPTION:
            in->options += c->option;
            in->option_count = 1;
            in->optional = false;
            break;
        case CHANGE_LEAVE:
            in->option_count = 0;
            break;
        case CHANGE_SWAP:
            for (size_t k = 0; k < out.count; k++)
                swap_ingredient(a, &out.ingredients[k], c);
            break;
        case CHANGE_CUT:
            copy_options(a, in);
            cut(&in->options[c->option].helpings[c->helping], c->kept);
            break;
        case CHANGE_PORTION:
            make_smaller(&out, c->amount);
            break;
        }
    }
    return out;
}

struct dish
change_alone(struct arena *a, const struct helping *h, double grams)
{
    struct dish d = {.count = 1, .portions = span_exact(1), .portions_known = true};
    struct dish_option *option = arena_take(a, sizeof *option);
    d.ingredients = arena_take(a, sizeof *d.ingredients);
    option->helpings = arena_take(a, sizeof *option->helpings);
    option->count = 1;
    *option->helpings = *h;
    option->helpings->weighing.unmeasured = false;
    cut(option->helpings, h->eaten.mid > 0 ? grams / h->eaten.mid : 0);
    d.ingredients->options = option;
    d.ingredients->option_count = 1;
    return d;
}
