#include "write/advice.h"

#include "reckon/remedy_words.h"
#include "write/markup.h"

static const char *const standing_words[] = {
    [STANDING_WITHIN] = "within the limits",
    [STANDING_CLOSE] = "close to a limit",
    [STANDING_UNKNOWN] = "not fully known",
    [STANDING_OVER] = "over a limit",
};

static void
add_option(struct text *t, const struct fragment_context *s, int region, size_t ingredient,
           size_t option)
{
    const struct ingredient *in = &s->o->dish.ingredients[ingredient];
    if (option >= in->option_count)
        return;
    for (size_t j = 0; j < in->options[option].count; j++) {
        const struct helping *h = &in->options[option].helpings[j];
        text_add_string(t, j > 0 ? " and " : "");
        markup_words(t, h->food != NULL ? slice_of(foods_shown(h->food, region, s->o->reads))
                                        : slice_trim(h->written->name));
    }
}

static void
add_pick(struct text *t, const struct fragment_context *s, int region, size_t ingredient,
         size_t pick)
{
    text_add_string(t, pick == 0 ? "without the " : "with ");
    add_option(t, s, region, ingredient, pick == 0 ? 0 : pick - 1);
}

/* whether choices alone keep a portion from going over */
static bool
resolves(const struct choices *c)
{
    return c->differ && c->resolve_count > 0 && c->resolved < STANDING_UNKNOWN;
}

static void
add_settling(struct text *t, const struct fragment_context *s, int region)
{
    const struct choices *c = &s->o->choices;
    text_add_string(t, "Made ");
    for (size_t i = 0; i < c->resolve_count; i++) {
        text_add_string(t, i == 0 ? "" : i + 1 == c->resolve_count ? " and " : ", ");
        add_pick(t, s, region, c->resolve[2 * i], c->resolve[2 * i + 1]);
    }
    text_add_string(t, ", a portion is ");
    text_add_string(t, standing_words[c->resolved]);
    text_add_byte(t, '.');
}

/* whether it does nothing but settle what the dish leaves open */
static bool
is_choice(const struct outcome *o, const struct remedy *r)
{
    for (size_t i = 0; i < r->count; i++) {
        const struct ingredient *in = &o->dish.ingredients[r->changes[i].ingredient];
        if (r->changes[i].kind > CHANGE_LEAVE || in->option_count + in->optional < 2)
            return false;
    }
    return true;
}

/* what to do, choices first: the from-th thing up to the to-th, each in the element; empty where
 * there are none */
static struct slice
remedies_piece(const struct fragment_context *s, int region, size_t from, size_t to)
{
    const struct outcome *o = s->o;
    const bool resolved = resolves(&o->choices);
    size_t at = 0;
    struct text items = text_new(s->arena);
    if (resolved && at++ >= from)
        add_settling(&items, s, region);
    for (size_t i = 0; i < o->remedies.count && at < to; i++) {
        const struct remedy *r = &o->remedies.items[i];
        if (resolved && is_choice(o, r))
            continue;
        if (at++ < from)
            continue;
        text_add_string(&items, from > 0 ? "<li>" : "");
        const struct kitchen kitchen = {&o->dish, s->tables, region, o->reads};
        text_add_html(&items,
                      region == o->dish.region ? r->sentence : remedy_words(s->arena, &kitchen, r));
        text_add_string(&items, from > 0 ? "</li>\n" : "");
    }
    return items.length > 0 ? text_slice(&items) : SLICE("");
}

/* what no choice mends, said as far as the choices go */
static struct slice
better_piece(const struct fragment_context *s, int region)
{
    const struct choices *c = &s->o->choices;
    struct text t = text_new(s->arena);
    if (!c->differ || c->resolve_count == 0 || resolves(c))
        return SLICE("");
    add_settling(&t, s, region);
    return text_slice(&t);
}

/* that there is nothing to do, and which foods are the matter */
static void
add_refusal(struct text *t, const struct fragment_context *s)
{
    struct slice pieces[REGIONS_MOST];
    const struct outcome *o = s->o;
    if (o->remedies.refusal.length == 0 || resolves(&o->choices))
        return;
    for (size_t i = 0; i < s->region_count; i++) {
        const struct kitchen kitchen = {&o->dish, s->tables, s->regions[i], o->reads};
        const char *phase = s->tables->limits.phases[s->tables->site.phase].name;
        struct text piece = text_new(s->arena);
        text_add_html(&piece, remedies_refusal(s->arena, &kitchen, &o->remedies, phase));
        pieces[i] = text_slice(&piece);
    }
    text_add_string(t, "<p class=\"dl-do\">");
    fragment_vary(t, s, "span", pieces);
    text_add_string(t, "</p>\n");
}

/* the one thing to do, in the measures of each region */
void
advice_write(struct text *t, const struct fragment_context *s)
{
    add_refusal(t, s);
    struct slice pieces[REGIONS_MOST];
    for (size_t i = 0; i < s->region_count; i++) {
        pieces[i] = remedies_piece(s, s->regions[i], 0, 1);
        if (pieces[i].length == 0)
            pieces[i] = better_piece(s, s->regions[i]);
    }
    if (pieces[0].length == 0 || (resolves(&s->o->choices) && s->o->choices.resolve_count == 1))
        return; /* one choice is told where the portion's standing is */
    text_add_string(t, "<p class=\"dl-do\">To stay within: ");
    fragment_vary(t, s, "span", pieces);
    text_add_string(t, "</p>\n");
}

static void
add_others(struct text *t, const struct fragment_context *s)
{
    struct slice pieces[REGIONS_MOST];
    for (size_t i = 0; i < s->region_count; i++)
        pieces[i] = better_piece(s, s->regions[i]);
    if (s->o->remedies.count > 0 && pieces[0].length > 0) {
        text_add_string(t, "<p>");
        fragment_vary(t, s, "span", pieces);
        text_add_string(t, "</p>\n");
    }
    for (size_t i = 0; i < s->region_count; i++)
        pieces[i] = remedies_piece(s, s->regions[i], 1, 3);
    if (pieces[0].length == 0)
        return;
    text_add_string(t, "<p>Or, to stay within, one of these:</p>\n");
    for (size_t i = 0; i < s->region_count; i++)
        pieces[i] = text_formatted(s->arena, "<ul>\n%.*s</ul>\n", SLICE_ARGS(pieces[i]));
    fragment_vary(t, s, "div", pieces);
}

static struct slice
variants_piece(const struct fragment_context *s, int region)
{
    const struct choices *c = &s->o->choices;
    struct text t = text_new(s->arena);
    text_add_string(&t, "<ul>\n");
    for (size_t v = 0; v < c->count; v++) {
        bool first = true;
        text_add_string(&t, "<li>");
        for (size_t i = 0; i < s->o->dish.count; i++) {
            const struct ingredient *in = &s->o->dish.ingredients[i];
            if (in->option_count + in->optional < 2)
                continue;
            text_add_string(&t, first ? "" : ", ");
            add_pick(&t, s, region, i, c->variants[v].picks[i]);
            first = false;
        }
        text_add_string(&t, ": ");
        text_add_string(&t, standing_words[c->variants[v].standing]);
        text_add_string(&t, "</li>\n");
    }
    text_add_string(&t, "</ul>\n");
    return text_slice(&t);
}

/* every way to make it, where they stand differently and are few */
static void
add_variants(struct text *t, const struct fragment_context *s)
{
    const struct choices *c = &s->o->choices;
    struct slice pieces[REGIONS_MOST];
    if (!c->differ || c->count < 2 || c->count > 16)
        return;
    for (size_t i = 0; i < s->region_count; i++)
        pieces[i] = variants_piece(s, s->regions[i]);
    text_add_string(t, "<p>As it is made:</p>\n");
    fragment_vary(t, s, "div", pieces);
}

void
advice_ways(struct text *t, const struct fragment_context *s)
{
    const size_t before = t->length;
    fragment_fold(t, "dl-ways", "Other ways to make it");
    const size_t begun = t->length;
    add_others(t, s);
    add_variants(t, s);
    if (t->length == begun)
        t->length = before;
    else
        text_add_string(t, "</details>\n");
}
