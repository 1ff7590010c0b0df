#include "write/panel.h"

#include <math.h>

#include "tables/table_ask.h"
#include "write/drawing.h"
#include "write/markup.h"
#include "write/verdict.h"

/* a limit of which less is used is not shown by itself */
static const double SHOWN_FROM = 0.05;
/* % of a limit: beyond it there is no bound to speak of */
static const double ESTIMATE_MOST = 1000;

/* "the strawberries: fructose in excess of glucose" */
static void
add_limit_name(struct text *t, const struct fragment_context *s, const struct limit_stand *l)
{
    struct slice pieces[REGIONS_MOST];
    if (l->of.column == SITTING) {
        text_add_string(t, "All in one sitting");
        return;
    }
    if (l->of.serve == SIZE_MAX || l->worst.chief == NULL) {
        text_add_string(t, "All together: ");
    } else {
        for (size_t i = 0; i < s->region_count; i++)
            pieces[i] = verdict_food(s, l->worst.chief, i);
        fragment_vary(t, s, "span", pieces);
        text_add_string(t, ": ");
    }
    text_add_string(t, column_name(l->of.column));
}

static void
add_grams(struct text *t, double grams)
{
    if (grams < 0.005)
        text_add_string(t, "under 0.01");
    else
        text_add_number(t, grams, 2);
    text_add_string(t, "\xc2\xa0g");
}

static void
add_chance(struct text *t, double chance)
{
    const double p = round(chance * 100);
    if (p < 1)
        return;
    text_add_string(t, "; a chance of ");
    text_add_number(t, p, 0);
    text_add_string(t, "\xc2\xa0% to be over");
}

static void
add_limit(struct text *t, const struct fragment_context *s, const struct limit_stand *l,
          double edge)
{
    const struct span share = {distribution_quantile(&l->worst.spread, 0.05), l->worst.mid,
                               distribution_quantile(&l->worst.spread, 0.95)};
    text_add_string(t, l->of.column == SITTING ? "<li class=\"dl-sum\">" : "<li>");
    text_add_string(t, "<span class=\"dl-name\">");
    add_limit_name(t, s, l);
    text_add_string(t, "</span> ");
    verdict_share(t, share);
    text_add_string(t, " <span class=\"dl-of\">");
    add_grams(t, l->worst.load);
    text_add_string(t, ", the limit is ");
    add_grams(t, l->worst.limit);
    if (l->worst.fresh)
        text_add_string(t, " for fresh fruit and vegetables");
    add_chance(t, l->worst.chance);
    if (l->best_standing != l->standing) {
        text_add_string(t, "; with the best choices ");
        text_add_string(t, standing_word(l->best_standing));
    }
    text_add_string(t, ".</span>");
    drawing_share(t, share, edge);
    text_add_string(t, "</li>\n");
}

static bool
is_shown(const struct limit_stand *l)
{
    return l->standing != STANDING_WITHIN || l->worst.mid >= SHOWN_FROM ||
           (l->of.column == SITTING && l->worst.mid > 0);
}

/* each food that has no figure where it matters, once */
static void
add_lacks(struct text *t, const struct fragment_context *s)
{
    const struct phase_stand *stand = s->stand;
    size_t count = 0;
    for (size_t k = 0; k < stand->limit_count; k++) {
        const struct lack *lack = &stand->limits[k].worst.lack;
        bool again = stand->limits[k].standing != STANDING_UNKNOWN || lack->load == NULL;
        for (size_t j = 0; j < k && !again; j++)
            again = stand->limits[j].standing == STANDING_UNKNOWN &&
                    stand->limits[j].worst.lack.load == lack->load;
        if (again)
            continue;
        text_add_string(t, count++ == 0 ? "<p>Not known: " : "; ");
        text_add_string(t, lack->amount ? "the amount of " : groups_name(lack->group));
        text_add_string(t, lack->amount ? "" : " of ");
        text_add(t, verdict_food(s, lack->load, 0));
    }
    text_add_string(t, count > 0 ? ".</p>\n" : "");
}

/* how much of the nearest sum rests on memory, and what estimates could add to it */
static void
add_evidence(struct text *t, const struct phase_stand *stand)
{
    const struct limit_stand *l = stand->whole != NULL ? stand->whole : stand->nearest;
    if (l == NULL)
        return;
    const struct share *worst = &l->worst;
    const double memory = round(worst->memory * 100), adds = ceil(worst->lack.adds * 100);
    if (memory > 0)
        text_addf(t, "<p>About %.0f\xc2\xa0%% of the sum", memory);
    else
        text_add_string(t, "<p>None of the sum");
    text_add_string(t, " rests on figures that were written from memory or by common practice.");
    if (worst->lack.load != NULL && !worst->lack.amount && adds > 0 && adds < ESTIMATE_MOST)
        text_addf(t,
                  " What has no figure of its own is estimated; one food adds at most "
                  "%.0f\xc2\xa0%% of the limit by that.",
                  adds);
    text_add_string(t, "</p>\n");
}

void
panel_figures(struct text *t, const struct fragment_context *s)
{
    const struct phase_stand *stand = s->stand;
    const double edge = verdict_edge(stand);
    size_t shown = 0;
    if (!s->o->dish.portions_known)
        return;
    fragment_fold(t, "dl-portion", "One portion, limit by limit");
    for (size_t k = 0; k < stand->limit_count; k++) {
        if (!is_shown(&stand->limits[k]))
            continue;
        text_add_string(t, shown++ == 0 ? "<p>The tick on each bar is the limit; the fine line "
                                          "ends where 19 in 20 would lie below.</p>\n"
                                          "<ul class=\"dl-shares\">\n"
                                        : "");
        add_limit(t, s, &stand->limits[k], edge);
    }
    text_add_string(t, shown > 0 ? "</ul>\n" : "");
    if (shown < stand->limit_count || shown == 0)
        text_add_string(t, shown > 0 ? "<p>All else is under 5\xc2\xa0% of its limit.</p>\n"
                                     : "<p>All of it is under 5\xc2\xa0% of its limit.</p>\n");
    add_lacks(t, s);
    add_evidence(t, stand);
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
        if (c->basis == BASIS_MEMORY)
            text_add_string(t, " (remembered, not looked up)");
        if (c->defer != NULL && c->defer[0] != '\0') {
            text_add_string(t, ". Comes first: ");
            text_add_html(t, slice_of(c->defer));
        }
        text_add_string(t, ".</small></li>\n");
    }
    text_add_string(t, "</ul>\n</details>\n");
}

/* why the author holds to a claim that cannot be told from the list: the answer to its finding */
static struct slice
author_says(const struct outcome *o, const struct claim *claim)
{
    for (size_t i = 0; i < o->findings.count; i++) {
        const struct finding *f = &o->findings.items[i];
        const bool of_claim = f->rule == RULE_CLAIM_UNKNOWN || f->rule == RULE_CLAIM_LABEL ||
                              f->rule == RULE_CLAIM_TRACE;
        if (f->answered && of_claim && f->place.line == claim->front_value.place.line &&
            f->place.column == claim->front_value.place.column)
            return f->reason;
    }
    return SLICE("");
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
        const struct slice says = author_says(s->o, one);
        if (one->grounds == GROUNDS_FALSE || (one->grounds == GROUNDS_UNKNOWN && says.length == 0))
            continue;
        text_add_string(t, "<li><b>");
        markup_words(t, one->front_value.text);
        text_add_string(t, "</b>");
        if (one->because.length > 0) {
            text_add_string(t, ": ");
            text_add_html(t, one->because);
        }
        if (says.length > 0) {
            text_add_string(t, "; by the author\xe2\x80\x99s word: ");
            markup_words(t, says);
        }
        text_add_string(t, slice_ends(says, ".") ? "</li>\n" : ".</li>\n");
        shown++;
    }
    text_add_string(t, "</ul>\n</details>\n");
    if (shown == 0)
        t->length = head;
}
