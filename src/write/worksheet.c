#include "write/worksheet.h"

#include <math.h>
#include <string.h>

#include "base/list.h"
#include "write/grid.h"

/* the figures that were used, numbered in the order of their use */
struct cited {
    const struct figure *figure;
    const char *unit, *of; /* "g/mL", "density of maple syrup" */
};

struct page {
    struct text *text;
    struct arena *arena;
    const struct outcome *o;
    struct sheet sheet;
    LIST_OF(struct cited) cited;
};

/* one helping with its numbers on the page */
struct entry_of {
    const struct ingredient *ingredient;
    const struct helping *helping;
    const struct helping_load *load;
    struct slice number, name; /* "3b", "brown sugar" */
};

static struct slice
span_words(struct arena *a, struct span s, int decimals)
{
    struct text t = text_new(a);
    text_add_number(&t, s.mid, decimals);
    if (s.low < s.high) {
        text_add_string(&t, " (");
        text_add_number(&t, s.low, decimals);
        text_add_string(&t, "–");
        text_add_number(&t, s.high, decimals);
        text_add_byte(&t, ')');
    }
    return text_slice(&t);
}

static int
decimals_of(struct span s)
{
    return s.mid >= 100 ? 0 : s.mid >= 10 ? 1 : s.mid >= 1 ? 2 : 3;
}

static struct slice
grams_words(struct arena *a, struct span s)
{
    return span_words(a, s, decimals_of(s));
}

/* "[3]": its number, given when it is cited first */
static void
cite(struct page *p, struct text *t, const struct figure *f, const char *unit, const char *what,
     struct slice of)
{
    if (f == NULL || f->basis == BASIS_NONE)
        return;
    size_t i = 0;
    while (i < p->cited.count && p->cited.items[i].figure != f)
        i++;
    if (i == p->cited.count)
        *LIST_GROW(p->arena, &p->cited) =
            (struct cited){f, unit, text_format(p->arena, "%s %.*s", what, SLICE_ARGS(of))};
    text_addf(t, "[%zu]", i + 1);
}

static void
each_entry(struct page *p, void (*each)(struct page *p, const struct entry_of *e, void *ctx),
           void *ctx)
{
    const struct dish *d = &p->o->dish;
    const struct helping_load *load = p->sheet.helpings;
    for (size_t i = 0; i < d->count; i++)
        for (size_t o = 0; o < d->ingredients[i].option_count; o++)
            for (size_t k = 0; k < d->ingredients[i].options[o].count; k++) {
                const struct helping *h = &d->ingredients[i].options[o].helpings[k];
                struct entry_of e = {&d->ingredients[i], h, load++, {NULL, 0}, {NULL, 0}};
                e.number = o == 0 ? text_formatted(p->arena, "%zu", i + 1)
                                  : text_formatted(p->arena, "%zu%c", i + 1,
                                                   (char)('a' + (o < 26 ? o : 25)));
                e.name = h->food != NULL ? slice_of(food_shown(h->food, d->region, p->o->reads))
                                         : h->written->name;
                each(p, &e, ctx);
            }
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
        text_add(t, span_words(p->arena, d->portions, 2));
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
        return text_formatted(a, "%.*s mL", SLICE_ARGS(grams_words(a, m->millilitres)));
    if (m->has_pieces)
        return text_formatted(
            a, "%.*s %s", SLICE_ARGS(span_words(a, m->pieces, 2)),
            m->piece_word == NULL || strcmp(m->piece_word, "each") == 0 ? "pieces" : m->piece_word);
    return text_formatted(a, "%.*s g", SLICE_ARGS(grams_words(a, m->grams)));
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
        cite(p, &figures, m->unit, m->kind == UNIT_WEIGHT ? "g" : "mL", "the unit of", e->name);
        cite(p, &figures, m->density, "g/mL", "density of", e->name);
        cite(p, &figures, m->piece, "g", "weight of one", e->name);
        const struct figure *f = m->density != NULL ? m->density : m->piece;
        if (f != NULL)
            text_addf(&per, "%.*s %s", SLICE_ARGS(grams_words(a, f->span)),
                      m->density != NULL ? "g/mL" : "g each");
    }
    cite(p, &figures, w->edible_share, "", "edible share of", e->name);
    grid_add(g, e->number);
    grid_add(g, e->name);
    grid_add(g, m != NULL ? measure_words(a, m) : SLICE("no amount"));
    grid_add(g, text_slice(&per));
    grid_add(g, w->known ? grams_words(a, w->grams) : SLICE("not known"));
    grid_add(g, w->known ? grams_words(a, w->edible) : SLICE("not known"));
    grid_add(g, w->known ? grams_words(a, e->helping->eaten) : SLICE("not known"));
    grid_add(g, w->known ? grams_words(a, e->load->grams) : SLICE("not known"));
    grid_add(g, text_slice(&figures));
}

static void
amounts(struct page *p)
{
    static const char *const heads[] = {"No",           "Food",        "Measured",
                                        "Weight of it", "Bought g",    "Edible g",
                                        "Eaten g",      "A portion g", "Figures"};
    struct grid g = grid_new(p->arena, 9, "4567");
    for (size_t c = 0; c < 9; c++)
        grid_add(&g, slice_of(heads[c]));
    each_entry(p, amount_row, &g);
    text_add_string(p->text, "\nAmounts of the whole dish, and in one portion\n\n");
    grid_write(p->text, &g);
}

struct group_rows {
    struct grid grid;
    enum group group;
    bool without; /* rows of what has no figure */
};

static void
group_row(struct page *p, const struct entry_of *e, void *ctx)
{
    struct group_rows *rows = ctx;
    struct grid *g = &rows->grid;
    struct arena *a = p->arena;
    const struct helping_load *h = e->load;
    const enum group k = rows->group;
    if (h->load[k].high <= 0 && h->bound[k] <= 0)
        return;
    struct text figures = text_new(a), share = text_new(a);
    const bool serve = h->serve_used && h->share[k].high > 0 && h->content[k] == NULL;
    cite(p, &figures, h->content[k], "g per 100 g", group_name(k),
         text_formatted(a, "of %.*s", SLICE_ARGS(e->name)));
    if (h->serve_used && k == e->helping->food->serve_group)
        cite(p, &figures, &e->helping->food->tested_serve, "g", "tested serve of", e->name);
    cite(p, &figures, h->limit[k], "g", "limit of", slice_of(group_name(k)));
    if (h->share[k].high > 0)
        text_add(&share, span_words(a, h->share[k], 3));
    if (h->bound[k] > 0 && isfinite(h->bound[k])) {
        text_addf(&share, "%sat most ", share.length > 0 ? " and " : "");
        text_add_number(&share, h->bound[k], 3);
    } else if (h->bound[k] > 0) {
        text_addf(&share, "%snot known", share.length > 0 ? " and " : "");
    }
    grid_add(g, e->number);
    grid_add(g, e->name);
    grid_add(g, e->helping->weighing.known ? grams_words(a, h->grams) : SLICE("not known"));
    grid_add(g, h->content[k] != NULL ? grams_words(a, h->content[k]->span)
                : serve               ? SLICE("tested serve")
                                      : SLICE("no figure"));
    grid_add(g, h->load[k].high > 0 ? span_words(a, h->load[k], 4) : SLICE(""));
    grid_add(g, h->limit[k] != NULL ? span_words(a, h->limit[k]->span, 3) : SLICE("none"));
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
                                  span_words(p->arena, load, 4),
                                  SLICE(""),
                                  span_words(p->arena, share, 3),
                                  SLICE("")};
    for (size_t c = 0; c < 8; c++)
        grid_add(g, cells[c]);
}

static bool
same_span(struct span a, struct span b)
{
    return fabs(a.low - b.low) < 1e-9 && fabs(a.mid - b.mid) < 1e-9 && fabs(a.high - b.high) < 1e-9;
}

static void
group(struct page *p, enum group k)
{
    static const char *const heads[] = {"No",     "Food",    "A portion g", "g per 100 g",
                                        "Load g", "Limit g", "Share",       "Figures"};
    const struct group_stand *s = &p->o->phases[p->o->tables->site.phase].groups[k];
    struct group_rows rows = {grid_new(p->arena, 8, "23456"), k, false};
    for (size_t c = 0; c < 8; c++)
        grid_add(&rows.grid, slice_of(heads[c]));
    each_entry(p, group_row, &rows);
    if (rows.grid.count == 8)
        return;
    const bool choice = !same_span(s->load, s->best_load) || !same_span(s->share, s->best_share);
    stack_row(p, &rows.grid, choice ? "stack, worst way" : "stack", s->load, s->share);
    if (choice)
        stack_row(p, &rows.grid, "stack, best way", s->best_load, s->best_share);
    text_addf(p->text, "\n%s\n\n", group_name(k));
    grid_write(p->text, &rows.grid);
    text_addf(p->text, "Stands: %s%s\n", s->limited ? standing_word(s->standing) : "not limited",
              s->fresh_allowance ? ", by the larger allowance for fresh produce: no other group is "
                                   "carried"
                                 : "");
}

static void
summing_up(struct page *p)
{
    const struct phase_stand *s = &p->o->phases[p->o->tables->site.phase];
    struct text *t = p->text;
    if (s->sitting_limited) {
        text_add_string(t, "\nOne sitting, all groups but lactose\n\n");
        text_addf(t, "%.*s g, %.*s of the limit; stands: %s\n",
                  SLICE_ARGS(span_words(p->arena, s->sitting, 4)),
                  SLICE_ARGS(span_words(p->arena, s->sitting_share, 3)),
                  standing_word(s->sitting_standing));
    }
    text_addf(t, "\nThe portion stands: %s", standing_word(s->standing));
    if (s->best_standing != s->standing)
        text_addf(t, " in its worst way, %s in its best", standing_word(s->best_standing));
    text_add_byte(t, '\n');
    for (size_t i = 0; i < p->o->remedies.count; i++)
        text_addf(t, "%s%.*s\n", i == 0 ? "\nTo stand within, any one of these\n\n" : "",
                  SLICE_ARGS(p->o->remedies.items[i].sentence));
}

static void
nutrition(struct page *p)
{
    const struct nutrition *n = &p->o->nutrition;
    struct text *t = p->text;
    if (!n->given)
        return;
    text_add_string(t, "\nNutrition of one portion\n\n");
    text_addf(t,
              "Energy %.0f kJ, %.0f kcal: fat x 37 kJ (9 kcal), protein and carbohydrate x 17 "
              "(4), fibre x 8 (2), by Regulation (EU) 1169/2011 Annex XIV\n",
              n->energy_kj, n->energy_kcal);
    static const struct {
        enum nutrient nutrient;
        const char *name;
    } shown[] = {{PROTEIN, "Protein"},
                 {FAT, "Fat"},
                 {SATURATED_FAT, "Saturated fat"},
                 {CARBOHYDRATE, "Carbohydrate by difference, fibre included"},
                 {SUGARS, "Sugars"},
                 {FIBRE, "Fibre"}};
    for (size_t i = 0; i < sizeof shown / sizeof *shown; i++)
        if (n->known[shown[i].nutrient])
            text_addf(t, "%s %.2f g\n", shown[i].name, n->amount[shown[i].nutrient]);
    if (n->known[SODIUM_MG])
        text_addf(t, "Salt %.2f g: %.0f mg of sodium x 2.5\n", n->salt, n->amount[SODIUM_MG]);
    text_addf(t, "Figures cover %.1f %% of the weight\n", n->coverage * 100);
}

static void
figures(struct page *p)
{
    struct text *t = p->text;
    text_add_string(t, "\nFigures, with basis and source\n\n");
    for (size_t i = 0; i < p->cited.count; i++) {
        const struct cited *c = &p->cited.items[i];
        text_addf(t, "[%zu] %s: %.*s%s%s; %s: %s\n", i + 1, c->of,
                  SLICE_ARGS(span_words(p->arena, c->figure->span, 4)), *c->unit != '\0' ? " " : "",
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
    nutrition(&p);
    figures(&p);
}
