#include "write/panel.h"

#include <math.h>

#include "write/drawing.h"
#include "write/markup.h"
#include "write/advice.h"

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
has_figure(const struct fragment_context *s, const struct food *f, enum group g)
{
    struct reads *reads = s->o->reads;
    if (f == NULL || figure_known(food_content(f, g, reads)))
        return f != NULL;
    bool parts = group_is_sum(g);
    for (enum group part = 0; part < GROUPS && parts; part++)
        parts = !group_is_part(part, g) || figure_known(food_content(f, part, reads));
    return parts || figure_known(food_content(f, group_sum(g), reads));
}

/* what is not known of an ingredient: the food of it that has no figure, or else the amount */
static void
add_lack(struct text *t, const struct fragment_context *s, enum group g, size_t ingredient)
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
    markup_words(t, fragment_ingredient(s, ingredient, s->regions[0]));
}

static void
add_share(struct text *t, const struct fragment_context *s, enum group g, double most)
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
add_shares(struct text *t, const struct fragment_context *s)
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
panel_verdict(struct text *t, const struct fragment_context *s)
{
    const struct phase *phase = &s->tables->limits.phases[s->tables->site.phase];
    text_add_string(t, "<div class=\"dl-verdict\">\n<p class=\"dl-standing\">");
    text_add_html(t, slice_of(standing_sentence(s->stand->standing)));
    text_add_string(t, "</p>\n");
    advice_write(t, s);
    text_add_string(t, "<p class=\"dl-of\">Limits for short-chain carbohydrates (FODMAPs), ");
    text_add_html(t, slice_of(phase->name));
    text_add_string(t, " phase; one portion is ");
    panel_portion_words(t, s->o);
    text_add_string(t, ".</p>\n");
    text_add_string(t, "</div>\n");
}

void
panel_figures(struct text *t, const struct fragment_context *s)
{
    fragment_fold(t, "dl-portion", "One portion, limit by limit");
    if (any_shown(s->stand))
        text_add_string(t, "<p>The tick on each bar is the limit.</p>\n");
    add_shares(t, s);
    add_absent(t, s->stand);
    add_traces(t, s->stand);
    text_add_string(t, "</details>\n");
}

/* those of no one step: the others stand in theirs */
void
panel_cautions(struct text *t, const struct fragment_context *s)
{
    const struct hazards *h = &s->o->hazards;
    bool any = false;
    for (size_t i = 0; i < h->count; i++) {
        if (h->items[i].step != SIZE_MAX)
            continue;
        if (!any) {
            text_add_string(t, "<section class=\"dl-cautions\">\n");
            fragment_heading(t, s, 1, SLICE("Take care"));
        }
        any = true;
        text_add_string(t, "<p class=\"dl-caution\">");
        text_add_html(t, slice_of(h->items[i].caution->words));
        text_add_string(t, "</p>\n");
    }
    text_add_string(t, any ? "</section>\n" : "");
}

void
panel_caution_sources(struct text *t, const struct fragment_context *s)
{
    const struct hazards *h = &s->o->hazards;
    if (h->count == 0)
        return;
    fragment_fold(t, "dl-warned", "Who says so: the cautions and their sources");
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
    text_add_string(t, "</ul>\n</details>\n");
}

void
panel_claims(struct text *t, const struct fragment_context *s)
{
    const struct claims *c = &s->o->claims;
    size_t head = t->length, shown = 0;
    fragment_fold(t, "dl-claims", "What this recipe claims, and why");
    text_add_string(t, "<ul>\n");
    for (size_t i = 0; i < c->count; i++) {
        const struct claim *one = &c->items[i];
        if (one->grounds == GROUNDS_FALSE || one->grounds == GROUNDS_UNKNOWN)
            continue;
        text_add_string(t, "<li><b>");
        markup_words(t, one->front_value.text);
        text_add_string(t, "</b>");
        if (one->because.length > 0) {
            text_add_string(t, ": ");
            text_add_html(t, one->because);
        }
        text_add_string(t, ".</li>\n");
        shown++;
    }
    text_add_string(t, "</ul>\n</details>\n");
    if (shown == 0)
        t->length = head;
}
