#include "write/grid.h"
#include "write/worksheet_page.h"
#include "write/worksheet_nutrition.h"

static const struct {
    enum nutrient nutrient;
    const char *head;
} nutrients_shown[] = {{ENERGY_KCAL, "kcal"},
                       {PROTEIN, "Protein g"},
                       {FAT, "Fat g"},
                       {SATURATED_FAT, "Saturated g"},
                       {CARBOHYDRATE, "Carbohydrate g"},
                       {SUGARS, "Sugars g"},
                       {FIBRE, "Fibre g"},
                       {SODIUM_MG, "Sodium mg"}};
enum { NUTRIENTS_SHOWN = sizeof nutrients_shown / sizeof *nutrients_shown };

/* the figures per 100 g of the first way written, which is the one that counts */
static void
nutrient_row(struct page *p, const struct entry_of *e, void *ctx)
{
    struct grid *g = ctx;
    const struct food *food = e->helping->food;
    bool any = false;
    if (e->option > 0)
        return;
    grid_add(g, e->number);
    grid_add(g, e->name);
    grid_add(g,
             e->helping->weighing.known ? worksheet_number(p, e->load->grams) : SLICE("not known"));
    struct text source = text_new(p->arena);
    for (size_t k = 0; k < NUTRIENTS_SHOWN; k++) {
        const struct figure *f =
            food == NULL ? NULL : &food->nutrients[nutrients_shown[k].nutrient];
        const bool known = f != NULL && figure_known(f);
        if (known && !any)
            worksheet_cite(p, &source, f, "kcal per 100 g, and what stands beside it", "energy of",
                           e->name);
        any = any || known;
        grid_add(g, known ? worksheet_number(p, f->span.mid) : SLICE("-"));
    }
    grid_add(g, any ? text_slice(&source) : SLICE("no figures"));
}

void
worksheet_nutrition(struct page *p)
{
    const struct nutrition *n = &p->o->nutrition;
    struct text *t = p->text;
    struct grid g = grid_new(p->arena, 4 + NUTRIENTS_SHOWN, "23456789:");
    grid_add(&g, SLICE("No"));
    grid_add(&g, SLICE("Food"));
    grid_add(&g, SLICE("A portion g"));
    for (size_t k = 0; k < NUTRIENTS_SHOWN; k++)
        grid_add(&g, slice_of(nutrients_shown[k].head));
    grid_add(&g, SLICE("Sources"));
    worksheet_each(p, nutrient_row, &g);
    if (n->given) {
        grid_add(&g, SLICE(""));
        grid_add(&g, SLICE("one portion"));
        grid_add(&g, worksheet_number(p, n->portion_grams));
        for (size_t k = 0; k < NUTRIENTS_SHOWN; k++) {
            const enum nutrient one = nutrients_shown[k].nutrient;
            grid_add(&g, n->known[one] ? worksheet_number(p, n->amount[one]) : SLICE("-"));
        }
        grid_add(&g, SLICE(""));
    }
    text_add_string(t, "\nNutrition: figures per 100 g of each food, and what one portion comes to"
                       "\nCarbohydrate is by difference and holds the fibre\n\n");
    grid_write(t, &g);
    text_addf(t, "Figures cover %.1f %% of the weight%s\n", n->coverage * 100,
              n->given ? "" : ": under 95 %, so no nutrition is given");
    if (!n->given)
        return;
    text_addf(t,
              "Energy %.0f kJ, %.0f kcal: protein x 17 kJ (4 kcal), carbohydrate less fibre x 17 "
              "(4), fat x 37 (9), fibre x 8 (2), by Regulation (EU) 1169/2011 Annex XIV\n",
              n->energy_kj, n->energy_kcal);
    if (n->known[SODIUM_MG])
        text_addf(t, "Salt %.2f g: %.0f mg of sodium x 2.5\n", n->salt, n->amount[SODIUM_MG]);
}
