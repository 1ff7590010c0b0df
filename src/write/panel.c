#include "write/panel.h"

#include <math.h>

#include "reckon/remedy_words.h"
#include "write/drawing.h"
#include "write/markup.h"

static const char *const standing_words[] = {
    [STANDING_WITHIN] = "within the limits", [STANDING_CLOSE] = "close to a limit",
    [STANDING_UNKNOWN] = "not fully known",  [STANDING_MAY_EXCEED] = "possibly over a limit",
    [STANDING_OVER] = "over a limit",
};

/* "a quarter of the dish" */
static void
add_part(struct text *t, double portions)
{
    static const char *const parts[] = {"the whole dish", "half",    "a third",     "a quarter",
                                        "a fifth",        "a sixth", "a seventh",   "an eighth",
                                        "a ninth",        "a tenth", "an eleventh", "a twelfth"};
    const size_t most = sizeof parts / sizeof *parts;
    if (portions >= 1 && portions <= (double)most && portions == floor(portions)) {
        text_add_string(t, parts[(size_t)portions - 1]);
        text_add_string(t, portions > 1 ? " of the dish" : "");
        return;
    }
    text_add_string(t, "one of ");
    text_add_number(t, portions, 2);
    text_add_string(t, " equal parts of the dish");
}

void
panel_portion_words(struct text *t, const struct outcome *o)
{
    const struct front_matter *f = &o->post.front;
    if (f->portion.text.length > 0) {
        markup_words(t, f->portion.text);
    } else if (o->dish.portions_known && f->portions.text.length > 0) {
        add_part(t, o->dish.portions.low);
        if (o->dish.portions.low < o->dish.portions.high) {
            text_add_string(t, ", when it serves the fewest of ");
            markup_words(t, f->portions.text);
        }
    } else {
        text_add_string(t, "the whole dish");
    }
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
add_percent(struct text *t, struct span share)
{
    size_t low = percent(share.low), mid = percent(share.mid), high = percent(share.high);
    text_add_string(t, "<b class=\"dl-share\">");
    if (high == 0 && share.high > 0)
        text_add_string(t, "under 1");
    else if (mid == 0 && high > 0)
        text_add_string(t, "up to ");
    if (high > 0 || share.high <= 0)
        text_add_whole(t, mid == 0 ? high : mid);
    text_add_string(t, " %</b> <span class=\"dl-of\">of the limit");
    if (mid > 0 && (high > mid + 1 || low + 1 < mid)) {
        text_add_string(t, ", between ");
        text_add_whole(t, low);
        text_add_string(t, " and ");
        text_add_whole(t, high);
        text_add_string(t, " %");
    }
}

static void
add_load(struct text *t, struct span load, double limit, struct span share)
{
    if (!(load.mid > 0))
        return;
    text_add_string(t, "; ");
    if (load.mid < 0.005)
        text_add_string(t, "under 0.01");
    else
        text_add_number(t, load.mid, 2);
    text_add_string(t, " g");
    /* where classes with other limits or tested serves come together, one limit would mislead */
    if (limit > 0 && fabs(load.mid / limit - share.mid) < 0.02) {
        text_add_string(t, ", the limit is ");
        text_add_number(t, limit, 2);
        text_add_string(t, " g");
    }
}

static void
add_capital(struct text *t, const char *words)
{
    text_add_byte(t, words[0] >= 'a' && words[0] <= 'z' ? (char)(words[0] - 'a' + 'A') : words[0]);
    text_add_string(t, words + 1);
}

static bool
has_figure(const struct setting *s, const struct food *f, enum group g)
{
    struct reads *reads = s->o->reads;
    if (f == NULL || figure_known(food_content(f, g, reads)))
        return f != NULL;
    if (g == OLIGOSACCHARIDES)
        return figure_known(food_content(f, FRUCTAN, reads)) &&
               figure_known(food_content(f, GALACTO_OLIGOSACCHARIDE, reads));
    if (g == POLYOLS)
        return figure_known(food_content(f, SORBITOL, reads)) &&
               figure_known(food_content(f, MANNITOL, reads));
    enum group whole = g == FRUCTAN || g == GALACTO_OLIGOSACCHARIDE ? OLIGOSACCHARIDES
                       : g == SORBITOL || g == MANNITOL             ? POLYOLS
                                                                    : g;
    return figure_known(food_content(f, whole, reads));
}

/* what is not known of an ingredient: the food of it that has no figure, or else the amount */
static void
add_lack(struct text *t, const struct setting *s, enum group g, size_t ingredient)
{
    const struct ingredient *in = &s->o->dish.ingredients[ingredient];
    for (size_t k = 0; k < in->option_count; k++)
        for (size_t j = 0; j < in->options[k].count; j++) {
            const struct helping *h = &in->options[k].helpings[j];
            if (has_figure(s, h->food, g))
                continue;
            text_add_string(t, ": no figure for ");
            markup_words(t, h->food != NULL
                                ? slice_of(food_shown(h->food, s->regions[0], s->o->reads))
                                : slice_trim(h->written->name));
            return;
        }
    text_add_string(t, ": no amount for ");
    markup_words(t, setting_ingredient(s, ingredient, s->regions[0]));
}

static void
add_share(struct text *t, const struct setting *s, enum group g, double most)
{
    const struct group_stand *gs = &s->stand->groups[g];
    text_add_string(t, "<li><span class=\"dl-name\">");
    add_capital(t, group_name(g));
    text_add_string(t, "</span> ");
    if (gs->carried) {
        add_percent(t, gs->share);
        add_load(t, gs->load, gs->limit, gs->share);
        if (gs->best_standing != gs->standing) {
            text_add_string(t, "; ");
            text_add_whole(t, percent(gs->best_share.mid));
            text_add_string(t, " % with the best choices");
        }
        if (gs->fresh_allowance)
            text_add_string(t, "; by the allowance for fresh fruit and vegetables");
        text_add_string(t, ".</span>");
    }
    if (gs->unknown) {
        text_add_string(t, gs->carried
                               ? " <span class=\"dl-of\">Not all is known"
                               : "<b class=\"dl-share\">?</b> <span class=\"dl-of\">not known");
        if (gs->unknown_ingredient < s->o->dish.count)
            add_lack(t, s, g, gs->unknown_ingredient);
        text_add_string(t, ".</span>");
    }
    if (gs->carried)
        drawing_share(t, gs->share, most);
    text_add_string(t, "</li>\n");
}

static bool
is_shown(const struct group_stand *g)
{
    return g->limited && (g->carried || g->unknown);
}

static double
right_edge(const struct phase_stand *stand)
{
    double most = stand->sitting_limited ? stand->sitting_share.high : 0;
    for (int g = 0; g < GROUPS; g++)
        if (is_shown(&stand->groups[g]) && stand->groups[g].share.high > most)
            most = stand->groups[g].share.high;
    return most > 1.5 ? 3 : 1.5;
}

static void
add_sitting(struct text *t, const struct phase_stand *stand, double most)
{
    if (!stand->sitting_limited || !(stand->sitting.high > 0))
        return;
    text_add_string(t, "<li class=\"dl-sum\"><span class=\"dl-name\">All of them at one sitting, "
                       "lactose aside</span> ");
    add_percent(t, stand->sitting_share);
    add_load(t, stand->sitting, 0, stand->sitting_share);
    text_add_string(t, ".</span>");
    drawing_share(t, stand->sitting_share, most);
    text_add_string(t, "</li>\n");
}

/* groups that the phase limits and nothing carries, in one sentence */
static void
add_absent(struct text *t, const struct phase_stand *stand)
{
    size_t left = 0, n = 0;
    for (int g = 0; g < GROUPS; g++)
        left += stand->groups[g].limited && !is_shown(&stand->groups[g]);
    if (left == 0)
        return;
    text_add_string(t, "<p>No ingredient carries ");
    for (int g = 0; g < GROUPS; g++) {
        if (!stand->groups[g].limited || is_shown(&stand->groups[g]))
            continue;
        text_add_string(t, n == 0 ? "" : n + 1 == left ? " or " : ", ");
        text_add_string(t, group_name((enum group)g));
        n++;
    }
    text_add_string(t, ".</p>\n");
}

static void
add_traces(struct text *t, const struct phase_stand *stand)
{
    double most = 0;
    for (int g = 0; g < GROUPS; g++)
        if (stand->groups[g].limited && stand->groups[g].trace_share > most)
            most = stand->groups[g].trace_share;
    if (!(most > 0))
        return;
    text_add_string(t, "<p>Small amounts of ingredients without figures are not counted. By the "
                       "highest content published for their kind they could add at most ");
    text_add_whole(t, percent(most) > 0 ? percent(most) : 1);
    text_add_string(t, " % of a limit.</p>\n");
}

static void
add_option(struct text *t, const struct setting *s, int region, size_t ingredient, size_t option)
{
    const struct ingredient *in = &s->o->dish.ingredients[ingredient];
    if (option >= in->option_count)
        return;
    for (size_t j = 0; j < in->options[option].count; j++) {
        const struct helping *h = &in->options[option].helpings[j];
        text_add_string(t, j > 0 ? " and " : "");
        markup_words(t, h->food != NULL ? slice_of(food_shown(h->food, region, s->o->reads))
                                        : slice_trim(h->written->name));
    }
}

static void
add_pick(struct text *t, const struct setting *s, int region, size_t ingredient, size_t pick)
{
    text_add_string(t, pick == 0 ? "without the " : "with ");
    add_option(t, s, region, ingredient, pick == 0 ? 0 : pick - 1);
}

/* whether choices alone keep a portion from going over */
static bool
settles(const struct choices *c)
{
    return c->differ && c->settle_count > 0 && c->settled < STANDING_MAY_EXCEED;
}

static void
add_settling(struct text *t, const struct setting *s, int region)
{
    const struct choices *c = &s->o->choices;
    text_add_string(t, "Made ");
    for (size_t i = 0; i < c->settle_count; i++) {
        text_add_string(t, i == 0 ? "" : i + 1 == c->settle_count ? " and " : ", ");
        add_pick(t, s, region, c->settle[2 * i], c->settle[2 * i + 1]);
    }
    text_add_string(t, ", a portion is ");
    text_add_string(t, standing_words[c->settled]);
    text_add_byte(t, '.');
}

/* choices first, then at most three changes */
static struct slice
remedies_piece(const struct setting *s, int region)
{
    const struct outcome *o = s->o;
    bool settled = settles(&o->choices);
    size_t shown = 0;
    struct text items = text_new(s->arena);
    text_add_string(&items, "<ul class=\"dl-remedies\">\n");
    size_t head = items.length;
    if (settled) {
        text_add_string(&items, "<li>");
        add_settling(&items, s, region);
        text_add_string(&items, "</li>\n");
    }
    for (size_t i = 0; i < o->remedies.count && shown < 3; i++) {
        const struct remedy *r = &o->remedies.items[i];
        if (r->drastic && items.length > head)
            break;
        if (settled && (r->kind == REMEDY_DROP || r->kind == REMEDY_ALTERNATIVE))
            continue;
        text_add_string(&items, "<li>");
        text_add_html(&items, remedy_words(s->arena, &o->dish, s->tables, o->reads, region, r));
        text_add_string(&items, "</li>\n");
        shown++;
    }
    if (items.length == head)
        return SLICE("");
    text_add_string(&items, "</ul>\n");
    return text_slice(&items);
}

/* what keeps a portion within, in the measures of each region */
static void
add_remedies(struct text *t, const struct setting *s)
{
    struct slice pieces[REGIONS_MOST];
    const struct choices *c = &s->o->choices;
    bool better = c->differ && c->settle_count > 0 && !settles(c);
    for (size_t i = 0; i < s->region_count && better; i++) {
        struct text said = text_new(s->arena);
        add_settling(&said, s, s->regions[i]);
        pieces[i] = text_slice(&said);
    }
    if (better) {
        text_add_string(t, "<p>");
        setting_vary(t, s, "span", pieces);
        text_add_string(t, "</p>\n");
    }
    for (size_t i = 0; i < s->region_count; i++)
        pieces[i] = remedies_piece(s, s->regions[i]);
    if (pieces[0].length == 0)
        return;
    setting_heading(t, s, 2, SLICE("To stay within, one of these"));
    setting_vary(t, s, "div", pieces);
}

static struct slice
variants_piece(const struct setting *s, int region)
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
add_variants(struct text *t, const struct setting *s)
{
    const struct choices *c = &s->o->choices;
    struct slice pieces[REGIONS_MOST];
    if (!c->differ || c->count < 2 || c->count > 16)
        return;
    for (size_t i = 0; i < s->region_count; i++)
        pieces[i] = variants_piece(s, s->regions[i]);
    text_add_string(t, "<details><summary>Each way to make it</summary>\n");
    setting_vary(t, s, "div", pieces);
    text_add_string(t, "</details>\n");
}

/* what keeps it within stands beside the standing, before the figures */
static void
add_stay(struct text *t, const struct setting *s)
{
    size_t before = t->length;
    text_add_string(t, "<div class=\"dl-stay\">\n");
    size_t begun = t->length;
    add_remedies(t, s);
    add_variants(t, s);
    if (t->length == begun)
        t->length = before;
    else
        text_add_string(t, "</div>\n");
}

static void
add_shares(struct text *t, const struct setting *s)
{
    const struct phase_stand *stand = s->stand;
    double most = right_edge(stand);
    size_t before = t->length;
    text_add_string(t, "<ul class=\"dl-shares\">\n");
    size_t begun = t->length;
    for (int g = 0; g < GROUPS; g++)
        if (is_shown(&stand->groups[g]))
            add_share(t, s, (enum group)g, most);
    add_sitting(t, stand, most);
    if (t->length == begun)
        t->length = before;
    else
        text_add_string(t, "</ul>\n");
}

static bool
any_shown(const struct phase_stand *stand)
{
    bool any = stand->sitting_limited && stand->sitting.high > 0;
    for (int g = 0; g < GROUPS; g++)
        any = any || is_shown(&stand->groups[g]);
    return any;
}

void
panel_portion(struct text *t, const struct setting *s)
{
    const struct phase *phase = &s->tables->limits.phases[s->tables->site.phase];
    struct text heading = text_new(s->arena);
    text_add_string(&heading, "One portion: ");
    panel_portion_words(&heading, s->o);
    text_add_string(t, "<section class=\"dl-portion\">\n");
    setting_heading(t, s, 1, text_slice(&heading));
    text_add_string(t, "<div class=\"dl-weighed\">\n<div>\n<p class=\"dl-standing\">");
    text_add_html(t, slice_of(standing_sentence(s->stand->standing)));
    text_add_string(t, "</p>\n<p>Measured against the limits for the ");
    text_add_html(t, slice_of(phase->name));
    text_add_string(t, " phase.");
    text_add_string(t,
                    any_shown(s->stand) ? " The tick on each bar is the limit.</p>\n" : "</p>\n");
    text_add_string(t, "</div>\n");
    add_stay(t, s);
    text_add_string(t, "</div>\n");
    add_shares(t, s);
    add_absent(t, s->stand);
    add_traces(t, s->stand);
    text_add_string(t, "</section>\n");
}

void
panel_cautions(struct text *t, const struct setting *s)
{
    const struct hazards *h = &s->o->hazards;
    if (h->count == 0)
        return;
    text_add_string(t, "<section class=\"dl-cautions\">\n");
    setting_heading(t, s, 1, SLICE("Take care"));
    text_add_string(t, "<ul>\n");
    for (size_t i = 0; i < h->count; i++) {
        const struct caution *c = h->items[i].caution;
        text_add_string(t, "<li>");
        text_add_html(t, slice_of(c->words));
        text_add_string(t, " <small class=\"dl-note\">");
        text_add_html(t, slice_of(tables_source(s->tables, s->arena, c->source)));
        if (c->defer != NULL && c->defer[0] != '\0') {
            text_add_string(t, ". Comes first: ");
            text_add_html(t, slice_of(c->defer));
        }
        text_add_string(t, ".</small></li>\n");
    }
    text_add_string(t, "</ul>\n</section>\n");
}

void
panel_claims(struct text *t, const struct setting *s)
{
    const struct claims *c = &s->o->claims;
    size_t head = t->length, shown = 0;
    text_add_string(t, "<section class=\"dl-claims\">\n");
    setting_heading(t, s, 1, SLICE("What this recipe claims, and why"));
    text_add_string(t, "<ul>\n");
    for (size_t i = 0; i < c->count; i++) {
        const struct claim *one = &c->items[i];
        if (one->grounds == GROUNDS_FALSE || one->grounds == GROUNDS_UNKNOWN)
            continue;
        text_add_string(t, "<li><b>");
        markup_words(t, one->said.text);
        text_add_string(t, "</b>");
        if (one->because.length > 0) {
            text_add_string(t, ": ");
            text_add_html(t, one->because);
        }
        text_add_string(t, ".</li>\n");
        shown++;
    }
    text_add_string(t, "</ul>\n</section>\n");
    if (shown == 0)
        t->length = head;
}
