#include "write/worksheet.h"

#include <math.h>
#include <string.h>

#include "tables/serve_settle.h"
#include "judge/standing.h"
#include "judge/verdict.h"
#include "tables/table_ask.h"
#include "write/grid.h"
#include "write/worksheet_page.h"
#include "write/worksheet_nutrition.h"

static const char *
stands(enum standing s)
{
    static const char *const words[] = {
        [STANDING_WITHIN] = "within the limit",
        [STANDING_CLOSE] = "within the limit, but close to it",
        [STANDING_UNKNOWN] = "not known, for want of a figure",
        [STANDING_OVER] = "over the limit",
    };
    return words[s];
}

/* "1 cup, United States": the measure whose size was used; grams and millilitres need no source */
static void
cite_unit(struct page *p, struct text *t, const struct entry_of *e, const struct measured *m)
{
    const struct written_food *w = e->helping->written;
    const struct slice region = slice_of(p->o->tables->measures.regions[p->o->dish.region].name);
    if (m->unit == NULL || worksheet_same(m->unit->span, span_exact(1)))
        return;
    for (size_t i = 0; i < w->amount_count; i++)
        if (w->amounts[i].unit != NULL && worksheet_same(w->amounts[i].unit->size, m->unit->span)) {
            const struct slice shown = w->amounts[i].unit->shown_one;
            worksheet_cite(p, t, m->unit, m->kind == UNIT_WEIGHT ? "g" : "mL",
                           text_format(p->arena, "1 %.*s,", SLICE_ARGS(shown)), region);
            return;
        }
    worksheet_cite(p, t, m->unit, "", "size of the measure of", e->name);
}

static void
head(struct page *p)
{
    const struct dish *d = &p->o->dish;
    const struct front_matter *front = &p->o->post.front;
    struct text *t = p->text;
    text_addf(t, "%.*s\n%s\n\n", SLICE_ARGS(front->title.text), p->o->post.path);
    text_addf(t, "Measures  %s\n", p->o->tables->measures.regions[d->region].name);
    text_add_string(t, "Portions  ");
    if (d->portions_known) {
        if (front->yield.text.length > 0)
            text_addf(t, "%.*s", SLICE_ARGS(front->yield.text));
        if (front->portion.text.length > 0)
            text_addf(t, ", a portion is %.*s", SLICE_ARGS(front->portion.text));
        text_add_string(t, front->yield.text.length > 0 ? ": " : "");
        text_add(t, worksheet_span(p->arena, d->portions, 2));
        text_add_string(t, "; all is divided by ");
        text_add_number(t, dish_divisor(d), 3);
    } else {
        text_add_string(t, "not known: the whole dish is reckoned as one");
    }
    text_addf(t, "\nLimits    %s\n", p->o->tables->limits.phases[p->o->tables->site.phase].name);
    text_add_string(t,
                    "Numbers   the middle, and in parentheses the 5th and the 95th percentile\n");
    text_add_string(t, "\nAs written\n\n");
    for (size_t i = 0; i < d->count; i++)
        text_addf(t, "%3zu  %.*s%s\n", i + 1, SLICE_ARGS(d->ingredients[i].line.text),
                  d->ingredients[i].optional ? "  [optional]" : "");
}

static struct slice
measure_words(struct arena *a, const struct measured *m)
{
    if (m->has_millilitres)
        return text_formatted(a, "%.*s mL", SLICE_ARGS(worksheet_grams(a, m->millilitres)));
    if (m->has_pieces)
        return text_formatted(
            a, "%.*s %s", SLICE_ARGS(worksheet_span(a, m->pieces, 2)),
            m->piece_word == NULL || strcmp(m->piece_word, "each") == 0 ? "pieces" : m->piece_word);
    return text_formatted(a, "%.*s g", SLICE_ARGS(worksheet_grams(a, m->grams)));
}

static void
amount_row(struct page *p, const struct entry_of *e, void *ctx)
{
    struct grid *g = ctx;
    struct arena *a = p->arena;
    const struct weighing *w = &e->helping->weighing;
    const struct measured *m = w->used < w->count ? &w->measured[w->used] : NULL;
    struct text figures = text_new(a), per = text_new(a);
    if (m != NULL) {
        cite_unit(p, &figures, e, m);
        worksheet_cite(p, &figures, m->density, "g/mL", "density of", e->name);
        worksheet_cite(p, &figures, m->piece, "g", "weight of one", e->name);
        const struct figure *f = m->density != NULL ? m->density : m->piece;
        if (f != NULL)
            text_addf(&per, "%.*s %s", SLICE_ARGS(worksheet_grams(a, f->span)),
                      m->density != NULL ? "g/mL" : "g each");
    }
    worksheet_cite(p, &figures, w->edible_share, "", "edible share of", e->name);
    grid_add(g, e->number);
    grid_add(g, e->name);
    grid_add(g, m != NULL ? measure_words(a, m) : SLICE("no amount"));
    grid_add(g, text_slice(&per));
    grid_add(g, w->known ? worksheet_grams(a, w->grams) : SLICE("not known"));
    grid_add(g, w->known ? worksheet_grams(a, w->edible) : SLICE("not known"));
    grid_add(g, w->known ? worksheet_grams(a, e->helping->eaten) : SLICE("not known"));
    grid_add(g, w->known ? worksheet_grams(a, load_grams(e->load)) : SLICE("not known"));
    grid_add(g, text_slice(&figures));
}

static void
amounts(struct page *p)
{
    static const char *const heads[] = {"No",       "Food",     "Measured", "Density, or one",
                                        "Bought g", "Edible g", "Eaten g",  "A portion g",
                                        "Sources"};
    struct grid g = grid_new(p->arena, 9, "4567");
    for (size_t c = 0; c < 9; c++)
        grid_add(&g, slice_of(heads[c]));
    worksheet_each(p, amount_row, &g);
    text_add_string(p->text, "\nAmounts of the whole dish, and in one portion\n\n");
    grid_write(p->text, &g);
}

struct group_rows {
    struct grid grid;
    enum group group;
};

/* "0.1 (0.05–0.3)", "below 0.05", "none", "no figure, at most 1.2" */
static struct slice
content_words(struct arena *a, const struct content *c)
{
    struct text t = text_new(a);
    if (c->figure != NULL && c->figure->kind == FIGURE_NONE)
        text_add_string(&t, "none");
    else if (c->figure != NULL && c->figure->kind == FIGURE_BELOW)
        text_addf(&t, "below %g", c->figure->span.high);
    else if (c->figure != NULL)
        text_add(&t, worksheet_grams(a, c->figure->span));
    else if (c->mid > 0)
        text_add(&t, worksheet_grams(a, span_exact(c->mid)));
    if (c->bound > 0) {
        text_add_string(&t, c->mid > 0 ? ", and of what has no figure at most "
                                       : "no figure, at most ");
        text_add_number(&t, c->bound, c->bound < 1 ? 2 : 1);
    }
    return text_slice(&t);
}

static void
group_row(struct page *p, const struct entry_of *e, void *ctx)
{
    struct group_rows *rows = ctx;
    struct grid *g = &rows->grid;
    struct arena *a = p->arena;
    const enum group k = rows->group;
    const struct content *c = &p->sheet.entries[e->load->entry].composition->groups[k];
    if (!(c->mid > 0) && !(c->bound > 0) && (c->figure == NULL || c->figure->span.high <= 0))
        return;
    struct text figures = text_new(a);
    const struct slice of = text_formatted(a, "of %.*s", SLICE_ARGS(e->name));
    if (c->figure != NULL)
        worksheet_cite(p, &figures, c->figure, "g per 100 g", groups_name(k), of);
    if (c->over != NULL)
        worksheet_cite(p, &figures, c->over, "g per 100 g at most", groups_name(k), of);
    else if (c->figure == NULL)
        text_add_string(&figures, c->evidence == EVIDENCE_FIGURE
                                      ? "from above" /* its two parts are cited there */
                                      : evidence_words(c->evidence));
    grid_add(g, e->number);
    grid_add(g, e->name);
    grid_add(g, e->helping->weighing.known ? worksheet_grams(a, load_grams(e->load))
                                           : SLICE("not known"));
    grid_add(g, content_words(a, c));
    grid_add(g, worksheet_span(a, load_brings(&p->sheet, e->load, k), 4));
    grid_add(g, text_slice(&figures));
}

static void
group(struct page *p, enum group k)
{
    static const char *const heads[] = {"No",          "Food",   "A portion g",
                                        "g per 100 g", "Load g", "Sources"};
    const struct group_stand *s = &p->o->phases[p->o->tables->site.phase].groups[k];
    struct group_rows rows = {grid_new(p->arena, 6, "24"), k};
    for (size_t c = 0; c < 6; c++)
        grid_add(&rows.grid, slice_of(heads[c]));
    worksheet_each(p, group_row, &rows);
    if (rows.grid.count == 6)
        return;
    text_addf(p->text, "\n%s\n\n", groups_name(k));
    grid_write(p->text, &rows.grid);
    if (s->limited)
        text_addf(p->text, "All foods together: %.*s g%s\n",
                  SLICE_ARGS(worksheet_span(p->arena, s->load, 4)),
                  worksheet_same(s->load, s->best_load) ? "" : ", in the way that brings most");
}

/* "onion", "the whole portion", "one sitting" */
static struct slice
limit_of_words(struct page *p, const struct limit_stand *l)
{
    if (l->of.column == SITTING)
        return SLICE("one sitting");
    if (l->of.serve == SIZE_MAX)
        return SLICE("the whole portion");
    for (size_t i = 0; i < p->sheet.load_count; i++)
        if (p->sheet.entries[p->sheet.loads[i].entry].serve == l->of.serve)
            return standing_name(&p->sheet, &p->sheet.loads[i], p->o->reads);
    return SLICE("");
}

static struct slice
percent_words(struct arena *a, double part)
{
    struct text t = text_new(a);
    text_add_number(&t, part * 100, part < 0.1 ? 1 : 0);
    text_add_string(&t, " %");
    return text_slice(&t);
}

/* the figure that a limit stands for, where one food's class decides */
static void
cite_limit(struct page *p, struct text *t, const struct limit_stand *l)
{
    const struct phase *phase = &p->o->tables->limits.phases[p->o->tables->site.phase];
    if (l->of.column == SITTING) {
        worksheet_cite(p, t, limits_sitting(phase, p->o->reads), "g", "limit of",
                       SLICE("one sitting"));
        return;
    }
    const enum group g = (enum group)l->of.column;
    const struct load *chief = l->worst.chief;
    if (l->of.column == SERVED) {
        const struct given_serve *serve =
            chief == NULL ? NULL
                          : serves_of_food(chief->helping->food, chief->helping->form,
                                           p->o->tables->site.phase, p->o->reads);
        if (serve != NULL)
            worksheet_cite(p, t, &serve->grams, "g", "the most of a serve of",
                           limit_of_words(p, l));
        return;
    }
    const enum food_class c = chief == NULL || chief->helping->food == NULL
                                  ? CLASS_OTHER
                                  : chief->helping->food->food_class;
    worksheet_cite(p, t,
                   l->worst.fresh ? limits_fresh(phase, g, p->o->reads)
                                  : limit_for(phase, g, c, p->o->reads),
                   "g", "limit of", slice_of(groups_name(g)));
}

static void
limit_row(struct page *p, struct grid *g, const struct limit_stand *l)
{
    struct arena *a = p->arena;
    struct text share = text_new(a), chance = text_new(a), cited = text_new(a);
    struct text_number_of {
        double value;
        int decimals;
    } numbers[] = {{l->worst.load, 4}, {l->worst.limit, 3}};
    text_add_number(&share, l->worst.mid, 3);
    if (l->best.mid < l->worst.mid - 1e-9) {
        text_add_string(&share, ", best way ");
        text_add_number(&share, l->best.mid, 3);
    }
    text_add(&chance, percent_words(a, l->worst.chance));
    if (l->worst.most_chance > l->worst.chance + 0.005)
        text_addf(&chance, " to %.*s", SLICE_ARGS(percent_words(a, l->worst.most_chance)));
    cite_limit(p, &cited, l);
    grid_add(g, limit_of_words(p, l));
    grid_add(g, l->of.column == SITTING ? SLICE("all that counts")
                                        : slice_of(column_name(l->of.column)));
    for (size_t k = 0; k < 2; k++) {
        struct text t = text_new(a);
        text_add_number(&t, numbers[k].value, numbers[k].decimals);
        grid_add(g, text_slice(&t));
    }
    grid_add(g, text_slice(&share));
    grid_add(g, text_slice(&chance));
    grid_add(g, percent_words(a, l->worst.memory));
    grid_add(g, slice_of(stands(l->standing)));
    grid_add(g, text_slice(&cited));
}

static void
limits(struct page *p)
{
    static const char *const heads[] = {"Serve of", "Group",     "Load g", "Limit g", "Share",
                                        "Chance",   "By memory", "Stands", "Sources"};
    const struct phase_stand *s = &p->o->phases[p->o->tables->site.phase];
    struct grid g = grid_new(p->arena, 9, "23");
    for (size_t c = 0; c < 9; c++)
        grid_add(&g, slice_of(heads[c]));
    for (size_t i = 0; i < s->limit_count; i++)
        if (s->limits[i].worst.mid > 0 || s->limits[i].standing != STANDING_WITHIN)
            limit_row(p, &g, &s->limits[i]);
    if (g.count == 9)
        return;
    text_add_string(p->text,
                    "\nEach limit, the nearest first; the chance is that of being over\n\n");
    grid_write(p->text, &g);
}

/* what no table above shows, so that nobody looks for it */
static void
not_carried(struct page *p, const struct phase_stand *s)
{
    bool any = false;
    for (enum group k = 0; k < GROUPS; k++) {
        if (s->groups[k].limited || s->groups[k].carried || s->groups[k].unknown)
            continue;
        text_addf(p->text, "%s%s", any ? ", " : "\nNot carried by any food here: ", groups_name(k));
        any = true;
    }
    text_add_string(p->text, any ? "\n" : "");
}

static void
summing_up(struct page *p)
{
    const struct phase_stand *s = &p->o->phases[p->o->tables->site.phase];
    struct text *t = p->text;
    not_carried(p, s);
    const struct verdict_asked asked = {&p->o->dish, p->o->tables,   p->o->tables->site.phase,
                                        s,           &p->o->choices, p->o->dish.region};
    struct verdict verdict;
    verdict_words(p->arena, &asked, p->o->reads, &verdict);
    const struct slice sentences[] = {verdict.standing, verdict.nearest, verdict.choice,
                                      verdict.sureness};
    for (size_t i = 0; i < sizeof sentences / sizeof *sentences; i++)
        if (sentences[i].length > 0)
            text_addf(t, "%s%.*s\n", i == 0 ? "\n" : "", SLICE_ARGS(sentences[i]));
    for (size_t i = 0; i < p->o->remedies.count; i++)
        text_addf(t, "%s%.*s\n", i == 0 ? "\nTo stand within, any one of these\n\n" : "",
                  SLICE_ARGS(p->o->remedies.items[i].sentence));
    if (p->o->remedies.refusal.length > 0)
        text_addf(t, "\n%.*s\n", SLICE_ARGS(p->o->remedies.refusal));
}

static void
figures(struct page *p)
{
    struct text *t = p->text;
    text_add_string(t, "\nSources: each figure, its basis, where it stands\n\n");
    for (size_t i = 0; i < p->cited.count; i++) {
        const struct cited *c = &p->cited.items[i];
        text_addf(t, "[%zu] %s: %.*s%s%s; %s: %s\n", i + 1, c->of,
                  SLICE_ARGS(worksheet_span(p->arena, c->figure->span, 4)),
                  *c->unit != '\0' ? " " : "", c->unit, figure_basis_word(c->figure->basis),
                  tables_source(p->o->tables, p->arena, c->figure->source));
    }
    text_add_string(t,
                    "\nGeneral information. The limits are for use with a dietitian or doctor.\n");
}

void
worksheet_text(struct text *t, const struct outcome *o)
{
    struct page p = {.text = t, .arena = t->arena, .o = o};
    sheet_build(p.arena, &o->dish, o->tables, o->reads, &p.sheet);
    head(&p);
    amounts(&p);
    for (enum group k = 0; k < GROUPS; k++)
        group(&p, k);
    limits(&p);
    summing_up(&p);
    worksheet_nutrition(&p);
    figures(&p);
}
