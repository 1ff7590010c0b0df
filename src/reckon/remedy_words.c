#include "reckon/remedy_words.h"

#include <math.h>
#include <string.h>

#include "reckon/household.h"

static bool
stands_in(struct slice text, struct slice words)
{
    for (size_t at = 0; words.length > 0 && at + words.length <= text.length; at++)
        if (text.at[at] == words.at[0] && memcmp(text.at + at, words.at, words.length) == 0)
            return true;
    return false;
}

/* "Hot sauce, to serve" begins its line with a capital that no sentence wants within; what the
 * larder writes with one keeps it: "Worcestershire sauce" */
static struct slice
within_sentence(struct arena *a, const struct ingredient_line *line, const struct helping *h)
{
    const struct slice name = h->written->name;
    const bool begins = name.length > 1 && line->text.length >= name.length &&
                        memcmp(line->text.at, name.at, name.length) == 0;
    const char first = name.length > 0 ? name.at[0] : '\0';
    if (!begins || first < 'A' || first > 'Z' || name.at[1] < 'a' || name.at[1] > 'z' ||
        (h->food->name[0] >= 'A' && h->food->name[0] <= 'Z'))
        return name;
    char *lower = arena_copy(a, name.at, name.length);
    lower[0] = (char)(first - 'A' + 'a');
    return (struct slice){lower, name.length};
}

/* At home the writer's own words, where they stand so in the line ("maple or golden syrup" does not
 * hold "maple syrup"); elsewhere what readers there call it. */
static struct slice
plain_name(struct arena *a, const struct dish *d, int region, const struct ingredient_line *line,
           const struct helping *h)
{
    const struct slice name = h->written->name;
    if (h->food == NULL)
        return name;
    if (region == d->region && stands_in(line->text, name))
        return within_sentence(a, line, h);
    /* "canned chickpeas, drained" breaks a sentence in two */
    const struct slice shown = slice_of(food_shown(h->food, region, NULL));
    return slice_ends(shown, ", drained") ? slice_part(shown, 0, shown.length - strlen(", drained"))
                                          : shown;
}

static inline bool
is_same(const struct helping *a, const struct helping *b)
{
    return a->food != NULL ? a->food == b->food : slice_equal(a->written->name, b->written->name);
}

/* "the second listed", where several ingredients are the same food: their order tells them apart */
static void
food_name(struct text *text, const struct dish *d, int region, const struct ingredient *in,
          const struct helping *h)
{
    static const char *const orders[] = {"first", "second", "third", "fourth", "fifth"};
    const struct slice name = plain_name(text->arena, d, region, &in->line, h);
    size_t same = 0, order = 0;
    text_add(text, name);
    for (size_t i = 0; i < d->count; i++) {
        const struct ingredient *other = &d->ingredients[i];
        bool holds = false;
        for (size_t o = 0; o < other->option_count && !holds; o++)
            for (size_t k = 0; k < other->options[o].count && !holds; k++)
                holds = is_same(h, &other->options[o].helpings[k]);
        if (other == in)
            order = same;
        same += holds;
    }
    if (same > 1)
        text_addf(text, " (the %s listed)",
                  order < sizeof orders / sizeof *orders ? orders[order] : "last");
}

/* "salt and pepper" */
static void
option_name(struct text *text, const struct dish *d, int region, const struct ingredient *in,
            size_t o)
{
    const struct dish_option *option = &in->options[o];
    for (size_t k = 0; k < option->count; k++) {
        if (k > 0)
            text_add_string(text, k + 1 < option->count ? ", " : " and ");
        food_name(text, d, region, in, &option->helpings[k]);
    }
}

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
portion_amount(struct arena *a, struct text *text, const struct dish *d, const struct tables *t,
               struct reads *reads, double amount, bool with_thing)
{
    if (d->yield_kind == YIELD_WEIGHT) {
        text_add_number(text, amount, 0);
        text_add_string(text, " g");
    } else if (d->yield_kind == YIELD_VOLUME) {
        double rounded;
        struct slice words = household_volume(a, amount, d->region, t, true, reads, &rounded);
        text_add_number(text, amount, 0);
        text_add_string(text, " mL");
        if (words.length > 0 && fabs(rounded - amount) < 0.01 * amount && !slice_ends(words, "mL"))
            text_addf(text, " (%.*s)", SLICE_ARGS(words));
    } else {
        household_fraction(text, amount);
        struct slice thing = amount > 1 ? d->yield_thing : single(a, d->yield_thing);
        if (with_thing && thing.length > 0)
            text_addf(text, " %.*s", SLICE_ARGS(thing));
    }
}

struct slice
remedy_portion_words(struct arena *a, const struct dish *d, const struct tables *t,
                     struct reads *reads, double amount, double was)
{
    struct text text = text_new(a);
    text_add_string(&text, "Serve ");
    portion_amount(a, &text, d, t, reads, amount, true);
    text_add_string(&text, " instead of ");
    portion_amount(a, &text, d, t, reads, was, false);
    text_add_byte(&text, '.');
    return text_slice(&text);
}

struct slice
remedy_portions_words(struct arena *a, double portions, double were)
{
    struct text text = text_new(a);
    text_add_string(&text, "Divide the dish into ");
    text_add_number(&text, portions, 0);
    text_add_string(&text, " portions");
    /* "instead of 4.8" would be no help: nobody cuts so many */
    if (fabs(were - round(were)) < 1e-6) {
        text_add_string(&text, " instead of ");
        text_add_number(&text, were, 0);
    }
    text_add_byte(&text, '.');
    return text_slice(&text);
}

/* joins the k-th of several clauses on: the first begins the sentence */
static void
clause(struct text *text, size_t k, size_t count, const char *first, const char *later)
{
    if (k == 0) {
        text_add_string(text, first);
        return;
    }
    const bool commas = count > 2 || slice_find_byte(text_slice(text), ',', 0) != SIZE_MAX;
    text_add_string(text, k + 1 < count ? ", " : commas ? ", and " : " and ");
    text_add_string(text, later);
}

/* pick 0: the ingredient is left out */
static void
settle_clause(struct text *text, const struct dish *d, int region, size_t ingredient, size_t pick,
              size_t k, size_t count)
{
    const struct ingredient *in = &d->ingredients[ingredient];
    if (pick == 0) {
        clause(text, k, count, "Leave out the ", "leave out the ");
        for (size_t o = 0; o < in->option_count; o++) {
            text_add_string(text, o == 0 ? "" : " or ");
            option_name(text, d, region, in, o);
        }
        return;
    }
    clause(text, k, count, "Use ", "use ");
    option_name(text, d, region, in, pick - 1);
    for (size_t o = 0, named = 0; o < in->option_count; o++) {
        if (o == pick - 1)
            continue;
        text_add_string(text, named++ == 0 ? ", not " : " or ");
        option_name(text, d, region, in, o);
    }
}

static struct slice
settle_words(struct arena *a, const struct dish *d, int region, const size_t *pairs, size_t count)
{
    struct text text = text_new(a);
    for (size_t k = 0; k < count; k++)
        settle_clause(&text, d, region, pairs[2 * k], pairs[2 * k + 1], k, count);
    text_add_byte(&text, '.');
    return text_slice(&text);
}

struct slice
remedy_settle_words(struct arena *a, const struct dish *d, const size_t *pairs, size_t count)
{
    return settle_words(a, d, d->region, pairs, count);
}

static void
cut_amount(struct text *text, const struct cut *cut)
{
    text_add(text, cut->words);
    if (slice_ends(cut->words, " g") || cut->grams < 0.1)
        return;
    text_add_string(text, " (about ");
    text_add_number(text, cut->grams, cut->grams < 10 ? 1 : 0);
    text_add_string(text, " g)");
}

/* elsewhere than at home a change is told by weight, but for spoons and what is counted: cups
 * become this in one kitchen and that in another */
static bool
weighed(const struct dish *d, int region, const struct helping *h)
{
    const struct unit *unit = h->written->amount_count > 0 ? h->written->amounts[0].unit : NULL;
    return region != d->region && unit != NULL && !unit->spoon;
}

static void
old_amount(struct arena *a, struct text *text, const struct dish *d, const struct tables *t,
           struct reads *reads, int region, const struct helping *h)
{
    struct household old;
    household_write(a, h, region, d->region, t, false, reads, &old);
    if (old.measure.length > 0 && !weighed(d, region, h)) {
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

static struct slice
cuts_words(struct arena *a, const struct dish *d, const struct tables *t, struct reads *reads,
           int region, const struct cut *cuts, size_t count, bool last_resort)
{
    struct text text = text_new(a);
    for (size_t k = 0; k < count; k++) {
        const struct cut *cut = &cuts[k];
        if (cut->settles) {
            size_t pick = cut->option == SIZE_MAX ? 0 : cut->option + 1;
            settle_clause(&text, d, region, cut->ingredient, pick, k, count);
            continue;
        }
        const struct ingredient *in = &d->ingredients[cut->ingredient];
        const struct helping *h = &in->options[cut->option].helpings[cut->helping];
        if (last_resort) { /* next to nothing of it may stay */
            clause(&text, k, count, "Replace the ", "replace the ");
            food_name(&text, d, region, in, h);
        } else if (cut->words.length == 0) {
            clause(&text, k, count, "Leave out the ", "leave out the ");
            food_name(&text, d, region, in, h);
        } else if (h->written->amount_count > 0 && h->written->amounts[0].unit == NULL) {
            /* "2 of tomato" would not do for things that are counted */
            clause(&text, k, count, "Cut the ", "cut the ");
            food_name(&text, d, region, in, h);
            text_add_string(&text, " from ");
            old_amount(a, &text, d, t, reads, region, h);
            text_add_string(&text, " to ");
            cut_amount(&text, cut);
        } else {
            clause(&text, k, count, "Use ", "use ");
            cut_amount(&text, cut);
            text_add_string(&text, " of ");
            if (household_scale(h) < 1 &&
                !stands_in(plain_name(a, d, region, &in->line, h), SLICE("drained")))
                text_add_string(&text, "drained ");
            food_name(&text, d, region, in, h);
            text_add_string(&text, " instead of ");
            old_amount(a, &text, d, t, reads, region, h);
        }
    }
    text_add_byte(&text, '.');
    return text_slice(&text);
}

struct slice
remedy_cuts_words(struct arena *a, const struct dish *d, const struct tables *t,
                  struct reads *reads, const struct cut *cuts, size_t count)
{
    return cuts_words(a, d, t, reads, d->region, cuts, count, false);
}

/* what is left of a cut, in the region's own measures: never more than was reckoned */
static struct slice
left_words(struct arena *a, const struct dish *d, const struct tables *t, struct reads *reads,
           int region, const struct cut *cut, const struct helping *h)
{
    struct slice words = SLICE("");
    double kept, factor = cut->grams / h->weighing.grams.mid;
    if (!weighed(d, region, h) && household_part(a, h, factor, region, t, reads, &words, &kept))
        return words;
    struct text text = text_new(a);
    double grams = household_grams(cut->grams * household_scale(h), true);
    text_add_number(&text, grams > 0 ? grams : floor(cut->grams * 10) / 10, grams < 2 ? 1 : 0);
    text_add_string(&text, " g");
    return text_slice(&text);
}

static struct slice
changes_words(struct arena *a, const struct dish *d, const struct tables *t, struct reads *reads,
              int region, const struct remedy *r)
{
    struct cut *cuts = arena_take_array(a, r->cut_count + 1, sizeof *cuts);
    for (size_t k = 0; k < r->cut_count; k++) {
        const struct cut *cut = &r->cuts[k];
        cuts[k] = *cut;
        if (!cut->settles && cut->words.length > 0 && region != d->region)
            cuts[k].words = left_words(
                a, d, t, reads, region, cut,
                &d->ingredients[cut->ingredient].options[cut->option].helpings[cut->helping]);
    }
    return cuts_words(a, d, t, reads, region, cuts, r->cut_count, r->drastic);
}

/* "No small change is enough: replace the apple." */
static struct slice
last_resort_words(struct arena *a, const struct dish *d, const struct remedy *r,
                  struct slice sentence)
{
    if (r->kind == REMEDY_PORTIONS)
        return text_formatted(a, "No small change is enough: it would take %.0f portions, not %g.",
                              r->amount, dish_divisor(d));
    char *copy = arena_copy(a, sentence.at, sentence.length);
    if (sentence.length > 0 && copy[0] >= 'A' && copy[0] <= 'Z')
        copy[0] = (char)(copy[0] - 'A' + 'a');
    return text_formatted(a, "No small change is enough: %.*s", (int)sentence.length, copy);
}

static struct slice
choice_words(struct arena *a, const struct dish *d, int region, const struct remedy *r)
{
    size_t *pairs = arena_take_array(a, 2 * r->cut_count + 1, sizeof *pairs);
    for (size_t k = 0; k < r->cut_count; k++) {
        pairs[2 * k] = r->cuts[k].ingredient;
        pairs[2 * k + 1] = r->cuts[k].option == SIZE_MAX ? 0 : r->cuts[k].option + 1;
    }
    return settle_words(a, d, region, pairs, r->cut_count);
}

struct slice
remedy_words(struct arena *a, const struct dish *d, const struct tables *t, struct reads *reads,
             int region, const struct remedy *r)
{
    const bool portion = r->kind == REMEDY_PORTION || r->kind == REMEDY_PORTIONS;
    struct slice sentence = r->sentence;
    if (region == d->region && r->told.length > 0)
        return r->told;
    if (!portion && (region != d->region || r->drastic)) {
        sentence = r->kind == REMEDY_DROP || r->kind == REMEDY_ALTERNATIVE
                       ? choice_words(a, d, region, r)
                       : changes_words(a, d, t, reads, region, r);
        if (r->after == STANDING_CLOSE)
            sentence = remedy_close_words(a, sentence);
    }
    return r->drastic ? last_resort_words(a, d, r, sentence) : sentence;
}

struct slice
remedy_close_words(struct arena *a, struct slice sentence)
{
    return text_formatted(a, "%.*s; that still is close to the limit.",
                          SLICE_ARGS(slice_part(sentence, 0, sentence.length - 1)));
}
