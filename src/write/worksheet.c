#include "write/worksheet.h"

#include <math.h>
#include <string.h>

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
        [STANDING_MAY_EXCEED] = "may exceed the limit (the high end does)",
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
    if (m->unit == NULL || page_same(m->unit->span, span_exact(1)))
        return;
    for (size_t i = 0; i < w->amount_count; i++)
        if (w->amounts[i].unit != NULL && page_same(w->amounts[i].unit->size, m->unit->span)) {
            const struct slice shown = w->amounts[i].unit->shown_one;
            page_cite(p, t, m->unit, m->kind == UNIT_WEIGHT ? "g" : "mL",
                      text_format(p->arena, "1 %.*s,", SLICE_ARGS(shown)), region);
            return;
        }
    page_cite(p, t, m->unit, "", "size of the measure of", e->name);
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
        text_add(t, page_span(p->arena, d->portions, 2));
        text_add_string(t, "; all is divided by ");
        text_add_number(t, dish_divisor(d), 3);
    } else {
        text_add_string(t, "not known: the whole dish is reckoned as one");
    }
    text_addf(t, "\nLimits    %s\n", p->o->tables->limits.phases[p->o->tables->site.phase].name);
    text_add_string(t, "Numbers   the middle, and in parentheses the low and the high end\n");
    text_add_string(t, "\nAs written\n\n");
    for (size_t i = 0; i < d->count; i++)
        text_addf(t, "%3zu  %.*s%s\n", i + 1, SLICE_ARGS(d->ingredients[i].line.text),
                  d->ingredients[i].optional ? "  [optional]" : "");
}

static struct slice
measure_words(struct arena *a, const struct measured *m)
{
    if (m->has_millilitres)
        return text_formatted(a, "%.*s mL", SLICE_ARGS(page_grams(a, m->millilitres)));
    if (m->has_pieces)
        return text_formatted(
            a, "%.*s %s", SLICE_ARGS(page_span(a, m->pieces, 2)),
            m->piece_word == NULL || strcmp(m->piece_word, "each") == 0 ? "pieces" : m->piece_word);
    return text_formatted(a, "%.*s g", SLICE_ARGS(page_grams(a, m->grams)));
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
        page_cite(p, &figures, m->density, "g/mL", "density of", e->name);
        page_cite(p, &figures, m->piece, "g", "weight of one", e->name);
        const struct figure *f = m->density != NULL ? m->density : m->piece;
        if (f != NULL)
            text_addf(&per, "%.*s %s", SLICE_ARGS(page_grams(a, f->span)),
                      m->density != NULL ? "g/mL" : "g each");
    }
    page_cite(p, &figures, w->edible_share, "", "edible share of", e->name);
    grid_add(g, e->number);
    grid_add(g, e->name);
    grid_add(g, m != NULL ? measure_words(a, m) : SLICE("no amount"));
    grid_add(g, text_slice(&per));
    grid_add(g, w->known ? page_grams(a, w->grams) : SLICE("not known"));
    grid_add(g, w->known ? page_grams(a, w->edible) : SLICE("not known"));
    grid_add(g, w->known ? page_grams(a, e->helping->eaten) : SLICE("not known"));
    grid_add(g, w->known ? page_grams(a, e->load->grams) : SLICE("not known"));
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
    page_each(p, amount_row, &g);
    text_add_string(p->text, "\nAmounts of the whole dish, and in one portion\n\n");
    grid_write(p->text, &g);
}

struct group_rows {
    struct grid grid;
    enum group group;
};

static void
group_row(struct page *p, const struct entry_of *e, void *ctx)
{
    struct group_rows *rows = ctx;
    struct grid *g = &rows->grid;
    struct arena *a = p->arena;
    const struct helping_load *h = e->load;
    const enum group k = rows->group;
    if (h->columns[k].load.high <= 0 && h->columns[k].bound <= 0)
        return;
    struct text figures = text_new(a), share = text_new(a);
    const struct figure *content = load_content(a, e->helping, h, k);
    const bool serve = h->serve_used && h->columns[k].share.high > 0 && content == NULL;
    if (content != NULL && !figure_known(&e->helping->food->contents[k]))
        text_add_string(&figures, "from above, "); /* its two parts are cited there */
    else
        page_cite(p, &figures, content, "g per 100 g", group_name(k),
                  text_formatted(a, "of %.*s", SLICE_ARGS(e->name)));
    if (h->serve_used && k == e->helping->food->serve_group)
        page_cite(p, &figures, &e->helping->food->tested_serve, "g", "tested serve of", e->name);
    page_cite(p, &figures, h->columns[k].limit, "g", "limit of", slice_of(group_name(k)));
    if (h->columns[k].share.high > 0)
        text_add(&share, page_span(a, h->columns[k].share, 3));
    if (h->columns[k].bound > 0 && isfinite(h->columns[k].bound)) {
        text_addf(&share, "%sat most ", share.length > 0 ? " and " : "");
        text_add_number(&share, h->columns[k].bound, 3);
    } else if (h->columns[k].bound > 0) {
        text_addf(&share, "%snot known", share.length > 0 ? " and " : "");
    }
    grid_add(g, e->number);
    grid_add(g, e->name);
    grid_add(g, e->helping->weighing.known ? page_grams(a, h->grams) : SLICE("not known"));
    grid_add(g, content != NULL ? page_grams(a, content->span)
                : serve         ? SLICE("tested serve")
                                : SLICE("no figure"));
    grid_add(g, h->columns[k].load.high > 0 ? page_span(a, h->columns[k].load, 4) : SLICE(""));
    grid_add(g, h->columns[k].limit != NULL ? page_span(a, h->columns[k].limit->span, 3)
                                            : SLICE("none"));
    grid_add(g, text_slice(&share));
    grid_add(g, text_slice(&figures));
}

static void
stack_row(struct page *p, struct grid *g, const char *label, struct span load, struct span share)
{
    const struct slice cells[] = {SLICE(""),
                                  slice_of(label),
                                  SLICE(""),
                                  SLICE(""),
                                  page_span(p->arena, load, 4),
                                  SLICE(""),
                                  page_span(p->arena, share, 3),
                                  SLICE("")};
    for (size_t c = 0; c < 8; c++)
        grid_add(g, cells[c]);
}

static void
group(struct page *p, enum group k)
{
    static const char *const heads[] = {"No",     "Food",    "A portion g", "g per 100 g",
                                        "Load g", "Limit g", "Share",       "Sources"};
    const struct group_stand *s = &p->o->phases[p->o->tables->site.phase].groups[k];
    struct group_rows rows = {grid_new(p->arena, 8, "23456"), k};
    for (size_t c = 0; c < 8; c++)
        grid_add(&rows.grid, slice_of(heads[c]));
    page_each(p, group_row, &rows);
    if (rows.grid.count == 8)
        return;
    const bool choice = !page_same(s->load, s->best_load) || !page_same(s->share, s->best_share);
    stack_row(p, &rows.grid, choice ? "stack, worst way" : "stack (sum)", s->load, s->share);
    if (choice)
        stack_row(p, &rows.grid, "stack, best way", s->best_load, s->best_share);
    text_addf(p->text, "\n%s\n\n", group_name(k));
    grid_write(p->text, &rows.grid);
    text_addf(p->text, "Stands: %s%s\n", s->limited ? stands(s->standing) : "not limited",
              s->fresh_allowance ? ", by the larger allowance for fresh produce: no other group is "
                                   "carried"
                                 : "");
}

/* what no table above shows, so that nobody looks for it */
static void
not_carried(struct page *p, const struct phase_stand *s)
{
    bool any = false;
    for (enum group k = 0; k < GROUPS; k++) {
        if (s->groups[k].limited || s->groups[k].carried || s->groups[k].unknown)
            continue;
        text_addf(p->text, "%s%s", any ? ", " : "\nNot carried by any food here: ", group_name(k));
        any = true;
    }
    text_add_string(p->text, any ? "\n" : "");
}

static void
summing_up(struct page *p)
{
    const struct phase_stand *s = &p->o->phases[p->o->tables->site.phase];
    struct text *t = p->text;
    if (s->sitting_limited) {
        const struct phase *phase = &p->o->tables->limits.phases[p->o->tables->site.phase];
        struct text source = text_new(p->arena);
        const struct figure *limit = limit_sitting(phase, p->o->reads);
        page_cite(p, &source, limit, "g", "limit of", SLICE("one sitting"));
        text_add_string(t, "\nOne sitting: fructose in excess of glucose, oligosaccharides and "
                           "polyols together\n\n");
        text_addf(t, "%.*s g of %.*s g %.*s: a share of %.*s\nStands: %s\n",
                  SLICE_ARGS(page_span(p->arena, s->sitting, 4)),
                  SLICE_ARGS(page_span(p->arena, limit->span, 3)), SLICE_ARGS(text_slice(&source)),
                  SLICE_ARGS(page_span(p->arena, s->sitting_share, 3)),
                  stands(s->sitting_standing));
    }
    not_carried(p, s);
    text_addf(t, "\nThe whole portion: %s", stands(s->standing));
    if (s->best_standing != s->standing)
        text_addf(t, "; made the best way: %s", stands(s->best_standing));
    text_add_byte(t, '\n');
    for (size_t i = 0; i < p->o->remedies.count; i++)
        text_addf(t, "%s%.*s\n", i == 0 ? "\nTo stand within, any one of these\n\n" : "",
                  SLICE_ARGS(p->o->remedies.items[i].sentence));
}

static void
figures(struct page *p)
{
    struct text *t = p->text;
    text_add_string(t, "\nSources: each figure, its basis, where it stands\n\n");
    for (size_t i = 0; i < p->cited.count; i++) {
        const struct cited *c = &p->cited.items[i];
        text_addf(t, "[%zu] %s: %.*s%s%s; %s: %s\n", i + 1, c->of,
                  SLICE_ARGS(page_span(p->arena, c->figure->span, 4)), *c->unit != '\0' ? " " : "",
                  c->unit, basis_word(c->figure->basis),
                  tables_source(p->o->tables, p->arena, c->figure->source));
    }
    text_add_string(t,
                    "\nGeneral information. The limits are for use with a dietitian or doctor.\n");
}

void
worksheet_text(struct text *t, const struct outcome *o)
{
    struct page p = {.text = t, .arena = t->arena, .o = o};
    sheet_lay(p.arena, &o->dish, o->tables, o->tables->site.phase, o->reads, &p.sheet);
    head(&p);
    amounts(&p);
    for (enum group k = 0; k < GROUPS; k++)
        group(&p, k);
    summing_up(&p);
    worksheet_nutrition(&p);
    figures(&p);
}
