#include "tables/table_numbers.h"

#include "tables/larder.h"

/* the rules' numbers are 1 and up to this; the foods' and measures' begin behind it */
enum { RULES_MOST = 1023 };

static void
number_rule(struct entry *e, uint32_t *last)
{
    e->number = *last < RULES_MOST ? ++*last : 0;
}

void
table_numbers_rules(struct tables *t)
{
    uint32_t last = 0;
    number_rule(&t->site.entry, &last);
    for (size_t i = 0; i < t->limits.phase_count; i++) {
        struct phase *p = &t->limits.phases[i];
        number_rule(&p->entry, &last);
        number_rule(&p->sitting_entry, &last);
        for (enum group g = 0; g < GROUPS; g++)
            number_rule(&p->groups[g].entry, &last);
    }
    for (size_t i = 0; i < t->cautions.count; i++) {
        number_rule(&t->cautions.items[i].trigger_entry, &last);
        number_rule(&t->cautions.items[i].words_entry, &last);
    }
}

/* what one look-up after the other reads stands side by side */
static void
number_food(struct food *f, uint32_t *last)
{
    f->identity.number = ++*last;
    f->nutrients_entry.number = ++*last;
    f->serve_entry.number = ++*last;
    for (enum group g = 0; g < GROUPS; g++)
        f->contents_entry[g].number = ++*last;
    for (size_t i = 0; i < f->form_count; i++)
        f->forms[i].entry.number = ++*last;
}

void
table_numbers_foods(struct tables *t)
{
    uint32_t last = RULES_MOST;
    struct larder *l = t->larder;
    for (size_t r = 0; r < t->measures.region_count; r++) {
        struct region *region = &t->measures.regions[r];
        region->entry.number = ++last;
        for (size_t i = 0; i < t->measures.unit_count; i++)
            if (region->rows[i] != NULL)
                region->rows[i]->entry.number = ++last;
    }
    for (int f = 0; f <= FILL_SIFTED; f++)
        t->measures.fills[f].entry.number = ++last;
    for (enum food_class c = 0; c < CLASSES; c++)
        for (enum group g = 0; g < GROUPS; g++)
            l->most[c][g].entry.number = ++last;
    for (size_t i = 0; i < l->count; i++)
        number_food(&l->items[i]->food, &last);
}
