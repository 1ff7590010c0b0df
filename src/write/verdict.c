#include "write/verdict.h"

#include <math.h>

#include "write/advice.h"
#include "write/drawing.h"
#include "write/ingredient_name.h"
#include "write/markup.h"

enum { NAMED_MOST = 4 };

struct slice
verdict_food(const struct fragment_context *s, const struct load *l, size_t i)
{
    const struct helping *h = l->helping;
    struct slice words = slice_trim(h->written->name);
    struct text t = text_new(s->arena);
    if (words.length == 0 && h->food != NULL)
        words = slice_of(foods_shown(h->food, s->regions[i], s->o->reads));
    else if (h->food != NULL)
        words = ingredient_name_in_step(s, l->ingredient, words, i);
    markup_words(&t, words);
    return t.length > 0 ? text_slice(&t) : SLICE("");
}

/* the foods that are over a limit by themselves, and lactose; each once */
static void
add_culprits(struct text *t, const struct fragment_context *s, size_t i)
{
    const struct phase_stand *stand = s->stand;
    const struct load *named[NAMED_MOST];
    size_t count = 0, more = 0;
    for (size_t k = 0; k < stand->limit_count; k++) {
        const struct limit_stand *l = &stand->limits[k];
        const struct load *chief = l->worst.chief;
        bool again = l->standing != STANDING_OVER || chief == NULL || l->of.column == SITTING;
        for (size_t j = 0; j < count; j++)
            again = again || named[j]->ingredient == chief->ingredient;
        if (again)
            continue;
        if (count == NAMED_MOST) {
            more++;
            continue;
        }
        named[count++] = chief;
    }
    for (size_t j = 0; j < count; j++) {
        const bool last = j + 1 == count && more == 0;
        text_add_string(t, j == 0 ? ": " : last ? " and " : ", ");
        text_add(t, verdict_food(s, named[j], i));
    }
    text_add_string(t, more > 0 ? " and more" : count == 0 ? " for one sitting" : "");
}

/* what nobody knows, the first of it */
static void
add_lack(struct text *t, const struct fragment_context *s, size_t i)
{
    for (size_t k = 0; k < s->stand->limit_count; k++) {
        const struct limit_stand *l = &s->stand->limits[k];
        const struct lack *lack = &l->worst.lack;
        if (l->standing != STANDING_UNKNOWN || lack->load == NULL)
            continue;
        text_add_string(t, lack->amount ? ": no amount for the " : ": no figure for the ");
        text_add(t, verdict_food(s, lack->load, i));
        return;
    }
}

/* of a choice between two: "with lactose-free yoghurt", "without the walnuts" */
static void
add_pick(struct text *t, const struct fragment_context *s, size_t row, size_t pick, size_t i)
{
    const struct ingredient *in = &s->o->dish.ingredients[row];
    const size_t option = pick == 0 ? 0 : pick - 1;
    text_add_string(t, pick == 0 ? "without the " : "with ");
    for (size_t j = 0; option < in->option_count && j < in->options[option].count; j++) {
        const struct helping *h = &in->options[option].helpings[j];
        struct slice words = slice_trim(h->written->name);
        if (words.length == 0 && h->food != NULL)
            words = slice_of(foods_shown(h->food, s->regions[i], s->o->reads));
        text_add_string(t, j > 0 ? " and " : "");
        markup_words(t, words);
    }
}

/* the portion stands by one choice between two: both are said */
static bool
write_choice(struct text *t, const struct fragment_context *s, size_t i)
{
    const struct choices *c = &s->o->choices;
    if (!c->differ || c->resolve_count != 1 || c->resolved > STANDING_CLOSE ||
        s->stand->standing <= STANDING_CLOSE)
        return false;
    const size_t row = c->resolve[0], pick = c->resolve[1];
    const struct ingredient *in = &s->o->dish.ingredients[row];
    if (in->option_count + in->optional != 2)
        return false;
    const size_t other = !in->optional ? 3 - pick : pick == 0 ? 1 : 0;
    text_add_string(t, c->resolved == STANDING_WITHIN ? "Within the limits " : "Close to a limit ");
    add_pick(t, s, row, pick, i);
    text_add_string(t, s->stand->standing == STANDING_OVER ? "; over a limit " : "; not known ");
    add_pick(t, s, row, other, i);
    text_add_byte(t, '.');
    return true;
}

static bool
reaches_past(const struct phase_stand *stand)
{
    const bool nearest =
        stand->nearest != NULL && stand->groups[stand->nearest->of.column].share.high > 1;
    return nearest || (stand->sitting_limited && stand->sitting_share.high > 1);
}

struct slice
verdict_sentence(const struct fragment_context *s, size_t i)
{
    const struct phase_stand *stand = s->stand;
    struct text t = text_new(s->arena);
    if (!s->o->dish.portions_known)
        return SLICE("How one portion stands is not known: how many the dish makes is not said.");
    if (write_choice(&t, s, i))
        return text_slice(&t);
    switch (stand->standing) {
    case STANDING_WITHIN: /* a chance of up to a fifth is within: the bars may reach past the tick
                           */
        return reaches_past(stand) ? SLICE("One portion most likely stays within the limits.")
                                   : SLICE("One portion stays within the limits.");
    case STANDING_CLOSE:
        return SLICE("One portion is within the limits, but close to one of them.");
    case STANDING_UNKNOWN:
        text_add_string(&t, "How one portion stands is not known");
        add_lack(&t, s, i);
        break;
    case STANDING_OVER:
        text_add_string(&t, "One portion is over the limits");
        text_add_string(&t,
                        stand->best_standing < STANDING_UNKNOWN ? " in some ways to make it" : "");
        add_culprits(&t, s, i);
        break;
    }
    text_add_byte(&t, '.');
    return text_slice(&t);
}

/* a percentage that never rounds across the limit */
static size_t
percent(double share)
{
    double p = round(share * 100);
    if (share < 1 && p >= 100)
        p = 99;
    if (share > 1 && p <= 100)
        p = 101;
    return p > 99999 ? 99999 : (size_t)p;
}

static void
add_times(struct text *t, double share)
{
    if (share >= 3) {
        text_add_number(t, share, share < 10 ? 1 : 0);
        text_add_string(t, "\xc2\xa0times");
    } else if (share > 0 && percent(share) == 0) {
        text_add_string(t, "under 1\xc2\xa0%");
    } else {
        text_add_whole(t, percent(share));
        text_add_string(t, "\xc2\xa0%");
    }
}

void
verdict_share(struct text *t, struct span share)
{
    text_add_string(t, "<span class=\"dl-share\"><b>");
    add_times(t, share.mid);
    text_add_string(t, "</b>");
    if (percent(share.high) > percent(share.mid) + 1) {
        text_add_string(t, ", at most ");
        add_times(t, share.high);
    }
    text_add_string(t, "</span>");
}

double
verdict_edge(const struct phase_stand *stand)
{
    double most = stand->sitting_limited ? stand->sitting_share.high : 0;
    for (int g = 0; g < GROUPS; g++)
        if (stand->groups[g].limited && stand->groups[g].share.high > most)
            most = stand->groups[g].share.high;
    return most > 1.5 ? 3 : 1.5;
}

static void
add_nearest_name(struct text *t, const struct fragment_context *s)
{
    const struct limit_stand *l = s->stand->nearest;
    struct slice pieces[REGIONS_MOST];
    if (l->of.serve == SIZE_MAX || l->worst.chief == NULL) {
        text_add_string(t, l->of.column == LACTOSE ? "Lactose, all together" : "All together");
        return;
    }
    for (size_t i = 0; i < s->region_count; i++) {
        struct text piece = text_new(s->arena);
        text_add_string(&piece, "Nearest: ");
        text_add(&piece, verdict_food(s, l->worst.chief, i));
        pieces[i] = text_slice(&piece);
    }
    fragment_vary(t, s, "span", pieces);
}

/* what is nearest to its limit, and the whole sitting */
static void
add_bars(struct text *t, const struct fragment_context *s)
{
    const struct phase_stand *stand = s->stand;
    const double edge = verdict_edge(stand);
    const bool nearest = stand->nearest != NULL && stand->nearest->worst.mid > 0;
    const bool whole = stand->sitting_limited && stand->sitting.mid > 0;
    if (!s->o->dish.portions_known || (!nearest && !whole))
        return;
    text_add_string(t, "<ul class=\"dl-bars\">\n");
    if (nearest) {
        const struct share *worst = &stand->nearest->worst;
        const struct span share = {distribution_quantile(&worst->spread, 0.05), worst->mid,
                                   distribution_quantile(&worst->spread, 0.95)};
        text_add_string(t, "<li><span class=\"dl-name\">");
        add_nearest_name(t, s);
        text_add_string(t, "</span> ");
        verdict_share(t, share);
        drawing_share(t, share, edge);
        text_add_string(t, "</li>\n");
    }
    if (whole) {
        text_add_string(t, stand->standing == STANDING_UNKNOWN
                               ? "<li><span class=\"dl-name\">What is known, together</span> "
                               : "<li><span class=\"dl-name\">All in one sitting</span> ");
        verdict_share(t, stand->sitting_share);
        drawing_share(t, stand->sitting_share, edge);
        text_add_string(t, "</li>\n");
    }
    text_add_string(t, "</ul>\n");
}

void
verdict_write(struct text *t, const struct fragment_context *s)
{
    const struct phase *phase = &s->tables->limits.phases[s->tables->site.phase];
    struct slice pieces[REGIONS_MOST];
    for (size_t i = 0; i < s->region_count; i++)
        pieces[i] = verdict_sentence(s, i);
    text_add_string(t, "<div class=\"dl-verdict\">\n<p class=\"dl-standing\">");
    fragment_vary(t, s, "span", pieces);
    text_add_string(t, "</p>\n");
    advice_write(t, s);
    add_bars(t, s);
    text_add_string(t, "<p class=\"dl-of\">The tick is the limit for FODMAPs (short-chain "
                       "carbohydrates) in the ");
    text_add_html(t, slice_of(phase->name));
    text_add_string(t, " phase.</p>\n</div>\n");
}
