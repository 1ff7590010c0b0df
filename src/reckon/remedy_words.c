#include "reckon/remedy_words.h"

#include <math.h>
#include <string.h>

#include "reckon/fraction.h"
#include "reckon/household.h"
#include "reckon/remedy_change.h"
#include "reckon/serve.h"
#include "reckon/spoons.h"

/* up to so many mL a swap is told by the spoon, whatever it stands for */
static const double SPOONED_MOST = 60;

/* one of several: loaves -> loaf, berries -> berry, fingers -> finger */
static struct slice
single(struct arena *a, struct slice thing)
{
    if (slice_ends(thing, "ies") && thing.length > 4)
        return text_formatted(a, "%.*sy", SLICE_ARGS(slice_part(thing, 0, thing.length - 3)));
    if (slice_ends(thing, "ves") && thing.length > 4)
        return text_formatted(a, "%.*sf", SLICE_ARGS(slice_part(thing, 0, thing.length - 3)));
    static const char *const whole[] = {"sses", "shes", "ches", "xes"};
    for (size_t i = 0; i < sizeof whole / sizeof *whole; i++)
        if (slice_ends(thing, whole[i]))
            return slice_part(thing, 0, thing.length - 2);
    if (slice_ends(thing, "s") && !slice_ends(thing, "ss"))
        return slice_part(thing, 0, thing.length - 1);
    return thing;
}

static void
portion_amount(struct text *text, const struct kitchen *k, double amount, bool with_thing)
{
    const struct dish *d = k->dish;
    if (d->yield_kind == YIELD_WEIGHT) {
        text_add_number(text, amount, 0);
        text_add_string(text, " g");
    } else if (d->yield_kind == YIELD_VOLUME) {
        double rounded;
        struct slice words =
            household_volume(text->arena, amount, k->region, k->tables, true, k->reads, &rounded);
        text_add_number(text, amount, 0);
        text_add_string(text, " mL");
        if (words.length > 0 && fabs(rounded - amount) < 0.01 * amount && !slice_ends(words, "mL"))
            text_addf(text, " (%.*s)", SLICE_ARGS(words));
    } else {
        fraction_add(text, amount);
        struct slice thing = amount > 1 ? d->yield_thing : single(text->arena, d->yield_thing);
        if (with_thing && thing.length > 0)
            text_addf(text, " %.*s", SLICE_ARGS(thing));
    }
}

/* "serve 3 fingers instead of 4", "divide the dish into 6 portions instead of 4" */
static void
portion_clause(struct text *text, const struct kitchen *k, double amount)
{
    const double said = change_portion_said(k->dish), were = dish_divisor(k->dish);
    if (said > 0) {
        text_add_string(text, "serve ");
        portion_amount(text, k, amount, true);
        text_add_string(text, " instead of ");
        portion_amount(text, k, said, false);
        return;
    }
    text_add_string(text, "divide the dish into ");
    text_add_number(text, amount, 0);
    text_add_string(text, " portions");
    /* "instead of 4.8" would be no help: nobody cuts so many */
    if (fabs(were - round(were)) < 1e-6) {
        text_add_string(text, " instead of ");
        text_add_number(text, were, 0);
    }
}

static void
leave_clause(struct text *text, const struct kitchen *k, const struct ingredient *in)
{
    text_add_string(text, "leave out the ");
    for (size_t o = 0; o < in->option_count; o++) {
        text_add_string(text, o == 0 ? "" : " or ");
        remedy_option_name(text, k, in, o);
    }
}

static void
option_clause(struct text *text, const struct kitchen *k, const struct ingredient *in,
              size_t option)
{
    text_add_string(text, "use ");
    remedy_option_name(text, k, in, option);
    for (size_t o = 0, named = 0; o < in->option_count; o++) {
        if (o == option)
            continue;
        text_add_string(text, named++ == 0 ? ", not " : " or ");
        remedy_option_name(text, k, in, o);
    }
}

/* elsewhere than at home a change is told by weight, but for spoons and what is counted: cups
 * become this in one kitchen and that in another */
static bool
weighed(const struct kitchen *k, const struct helping *h)
{
    const struct unit *unit = h->written->amount_count > 0 ? h->written->amounts[0].unit : NULL;
    return k->region != k->dish->region && unit != NULL && !unit->spoon;
}

static void
old_amount(struct text *text, const struct kitchen *k, const struct helping *h)
{
    struct household old;
    household_write(text->arena, h, k->region, k->dish->region, k->tables, false, k->reads, &old);
    if (old.measure.length > 0 && !weighed(k, h)) {
        text_add(text, old.measure);
        return;
    }
    const double mid = h->weighing.grams.mid;
    bool whole = mid >= 2 && fabs(mid - round(mid)) < 0.01;
    double grams = whole ? mid : household_grams(mid, false);
    text_add_string(text, whole ? "" : "about ");
    text_add_number(text, grams, grams < 2 ? 1 : 0);
    text_add_string(text, " g");
}

/* what is left of a cut, in the region's own measures: never more than was reckoned */
static void
left_amount(struct text *text, const struct kitchen *k, const struct change *c,
            const struct helping *h)
{
    struct slice words = c->words;
    const double left = h->weighing.grams.mid * c->kept;
    double kept;
    if (k->region != k->dish->region &&
        (weighed(k, h) ||
         !household_part(text->arena, h, c->kept, k->region, k->tables, k->reads, &words, &kept))) {
        double grams = household_grams(left * household_scale(h), true);
        text_add_number(text, grams > 0 ? grams : floor(left * 10) / 10, grams < 2 ? 1 : 0);
        text_add_string(text, " g");
        return;
    }
    text_add(text, words);
    if (slice_ends(words, " g") || left < 0.1)
        return;
    text_add_string(text, " (about ");
    text_add_number(text, left, left < 10 ? 1 : 0);
    text_add_string(text, " g)");
}

/* "2 stalks of celery", not "of celery stalks" */
static struct slice
without_unit(struct slice name, const struct helping *h)
{
    const struct unit *unit = h->written->amount_count > 0 ? h->written->amounts[0].unit : NULL;
    if (unit == NULL || unit->kind != UNIT_PIECE)
        return name;
    const struct slice shown[] = {unit->shown_many, unit->shown_one, slice_of(unit->id)};
    for (size_t i = 0; i < 3; i++) {
        const size_t rest = name.length - shown[i].length;
        if (shown[i].length > 0 && name.length > shown[i].length + 1 && name.at[rest - 1] == ' ' &&
            slice_equal(slice_part(name, rest, name.length), shown[i]))
            return slice_part(name, 0, rest - 1);
    }
    return name;
}

static void
cut_clause(struct text *text, const struct kitchen *k, const struct change *c)
{
    const struct ingredient *in = &k->dish->ingredients[c->ingredient];
    const struct helping *h = &in->options[c->option].helpings[c->helping];
    /* "2 of tomato" would not do for things that are counted */
    const bool counted = h->written->amount_count > 0 && h->written->amounts[0].unit == NULL;
    text_add_string(text, counted ? "cut the " : "use ");
    if (counted) {
        remedy_food_name(text, k, in, h);
        text_add_string(text, " from ");
        old_amount(text, k, h);
        text_add_string(text, " to ");
        left_amount(text, k, c, h);
        return;
    }
    left_amount(text, k, c, h);
    text_add_string(text, " of ");
    struct text name = text_new(text->arena);
    remedy_food_name(&name, k, in, h);
    if (household_scale(h) < 1 && slice_find(text_slice(&name), "drained", 0) == SIZE_MAX)
        text_add_string(text, "drained ");
    text_add(text, without_unit(text_slice(&name), h));
    text_add_string(text, " instead of ");
    old_amount(text, k, h);
}

/* the helpings that a swap stands for; of lines with options, of the first that has one */
struct swapped {
    double grams; /* of the new food, as bought */
    bool by_volume;
    const struct ingredient *lines[4];
    const struct helping *helpings[4]; /* each food once */
    size_t count;
};

static void
note_swapped(struct swapped *s, const struct ingredient *in, const struct helping *h)
{
    const struct unit *unit = h->written->amount_count > 0 ? h->written->amounts[0].unit : NULL;
    s->by_volume = s->by_volume || (unit != NULL && unit->kind == UNIT_VOLUME);
    for (size_t i = 0; i < s->count; i++)
        if (s->helpings[i]->food == h->food)
            return;
    if (s->count < sizeof s->helpings / sizeof *s->helpings) {
        s->lines[s->count] = in;
        s->helpings[s->count++] = h;
    }
}

static struct swapped
swapped_of(const struct dish *d, const struct change *c)
{
    struct swapped s = {.count = 0};
    const struct figure *share = &c->use->forms[0].edible;
    for (size_t i = 0; i < d->count; i++) {
        const struct ingredient *in = &d->ingredients[i];
        bool found = false;
        for (size_t o = 0; o < in->option_count && !found; o++)
            for (size_t k = 0; k < in->options[o].count; k++) {
                const struct helping *h = &in->options[o].helpings[k];
                if (!change_swaps(c->swap, h))
                    continue;
                found = true;
                s.grams += h->weighing.edible.mid * c->swap->ratio;
                note_swapped(&s, in, h);
            }
    }
    if (figure_known(share) && share->span.mid > 0)
        s.grams /= share->span.mid;
    return s;
}

/* by the spoon or cup where its cooks would: "2 tbsp", else by weight */
static void
new_amount(struct text *text, const struct kitchen *k, const struct change *c,
           const struct swapped *s)
{
    const struct figure *density = foods_form_density(&c->use->forms[0], k->reads);
    const double ml =
        figure_known(density) && density->span.mid > 0 ? s->grams / density->span.mid : 0;
    const bool weighs = spoons_weighing_region(&k->tables->measures, k->region);
    struct slice words = SLICE("");
    double rounded;
    if (ml > 0 && (s->by_volume || ml <= SPOONED_MOST || !weighs))
        words = household_volume(text->arena, ml, k->region, k->tables, false, k->reads, &rounded);
    if (words.length > 0) {
        text_add(text, words);
        return;
    }
    const double grams = household_grams(s->grams, false);
    text_add_number(text, grams > 0 ? grams : 1, grams < 2 ? 1 : 0);
    text_add_string(text, " g");
}

static void
swap_clause(struct text *text, const struct kitchen *k, const struct change *c)
{
    const struct swapped s = swapped_of(k->dish, c);
    text_add_string(text, "use ");
    if (fabs(c->swap->ratio - 1) > 1e-9) {
        new_amount(text, k, c, &s);
        text_add_string(text, " of ");
    }
    text_add_string(text, foods_shown(c->use, k->region, k->reads));
    text_add_string(text, " instead of the ");
    for (size_t i = 0; i < s.count; i++) {
        struct text name = text_new(text->arena);
        remedy_food_name(&name, k, s.lines[i], s.helpings[i]);
        struct slice words = text_slice(&name);
        const size_t order = slice_find(words, " (the ", 0); /* all lines of it are swapped */
        text_add_string(text, i == 0 ? "" : i + 1 < s.count ? ", " : " and ");
        text_add(text, order == SIZE_MAX ? words : slice_part(words, 0, order));
    }
    if (c->swap->also != NULL)
        text_addf(text, " (%s)", c->swap->also);
}

static void
change_clause(struct text *text, const struct kitchen *k, const struct change *c)
{
    const struct ingredient *in = &k->dish->ingredients[c->ingredient];
    switch (c->kind) {
    case CHANGE_OPTION:
        option_clause(text, k, in, c->option);
        break;
    case CHANGE_LEAVE:
        leave_clause(text, k, in);
        break;
    case CHANGE_SWAP:
        swap_clause(text, k, c);
        break;
    case CHANGE_CUT:
        cut_clause(text, k, c);
        break;
    case CHANGE_PORTION:
        portion_clause(text, k, c->amount);
        break;
    }
}

static void
begin_sentence(struct text *text, size_t at)
{
    char *first = text->bytes + at;
    if (*first >= 'a' && *first <= 'z')
        *first = (char)(*first - 'a' + 'A');
}

/* " How much mannitol the pickled beetroot holds is not known, and stays so." */
static void
add_open(struct text *text, const struct kitchen *k, const struct lack *lack)
{
    text_add_string(text, " How much ");
    if (!lack->amount)
        text_addf(text, "%s ", groups_name(lack->group));
    text_add_string(text, lack->amount ? "is taken of the " : "the ");
    remedy_food_name(text, k, &k->dish->ingredients[lack->load->ingredient], lack->load->helping);
    text_add_string(text, lack->amount ? " is not said." : " holds is not known, and stays so.");
}

struct slice
remedy_words(struct arena *a, const struct kitchen *k, const struct remedy *r)
{
    struct text text = text_new(a);
    for (size_t i = 0; i < r->count; i++) {
        text_add_string(&text, i == 0 ? "" : i + 1 < r->count ? "; " : "; and ");
        change_clause(&text, k, &r->changes[i]);
    }
    text_add_byte(&text, '.');
    begin_sentence(&text, 0);
    if (r->count == 1 && r->changes[0].kind == CHANGE_SWAP)
        text_addf(&text, " The dish loses %s.", r->changes[0].swap->loses);
    if (r->open != NULL)
        add_open(&text, k, r->open);
    return text_slice(&text);
}

static void
add_grams(struct text *text, double grams, bool down)
{
    const double rounded = household_grams(grams, down);
    if (rounded < 1) {
        text_add_string(text, "less than 1 g");
        return;
    }
    text_add_number(text, rounded, 0);
    text_add_string(text, " g");
}

/* g in 1 mL of what lies so loose that no spoon measures it, as pasta or leaves do; common
 * practice, no source */
static const double LOOSE = 0.42;

/* the most of a food that a portion may hold in the kitchen's spoons, cups or pieces: ", or 1 tbsp"
 */
static void
add_measure(struct text *text, const struct kitchen *k, const struct helping *h, double grams)
{
    if (h->food == NULL || grams < 1)
        return;
    const struct figure *density = foods_form_density(&h->food->forms[0], k->reads);
    if (figure_known(density) && density->span.mid < LOOSE)
        return;
    struct slice words = serve_measure(text->arena, h->food, grams, k->region, k->tables);
    const size_t pieces = slice_find(words, "; ", 0);
    words = pieces == SIZE_MAX ? words : slice_part(words, 0, pieces);
    if (words.length > 0 && !slice_ends(words, " mL"))
        text_addf(text, ", or %.*s", SLICE_ARGS(words));
}

/* "onion, 250 g (at most 10 g, or 1 tbsp)" */
static void
refused_food(struct text *text, const struct kitchen *k, const struct refused *r, bool together)
{
    const struct load *l = r->load;
    remedy_food_name(text, k, &k->dish->ingredients[l->ingredient], l->helping);
    if (together || !l->helping->weighing.known)
        return;
    text_add_string(text, ", ");
    add_grams(text, l->grams, false);
    text_add_string(text, household_grams(r->most, true) < 1 ? " (" : " (at most ");
    add_grams(text, r->most, true);
    add_measure(text, k, l->helping, r->most);
    text_add_byte(text, ')');
}

struct slice
remedies_refusal(struct arena *a, const struct kitchen *k, const struct remedies *r,
                 const char *phase)
{
    struct text text = text_new(a);
    text_addf(&text, "No small change is enough. Too much %s: ",
              r->together ? "together" : "in a portion");
    for (size_t i = 0; i < r->refused_count; i++) {
        const bool last = i + 1 == r->refused_count;
        text_add_string(&text, i == 0 ? "" : !r->together ? "; " : last ? " and " : ", ");
        refused_food(&text, k, &r->refused[i], r->together);
    }
    text_addf(&text, ". As it is, this is no dish for the %s phase.", phase);
    return text_slice(&text);
}
