#include "tables/food_entries.h"

static uint64_t
texts_digest(const char *const *texts, uint64_t d)
{
    for (; texts != NULL && *texts != NULL; texts++)
        d = slice_digest(slice_of(*texts), d);
    return d;
}

static uint64_t
identity_digest(const struct food *f)
{
    uint32_t bits[] = {f->allergens, f->may_carry, f->traces,
                       f->breaks,    f->labelled,  (uint32_t)f->food_class,
                       f->fresh,     f->seasoning, f->kinless};
    uint64_t d = slice_digest((struct slice){(const char *)bits, sizeof bits}, 1);
    d = figure_digest(&f->grounds, d);
    d = slice_digest(slice_of(f->name), d);
    d = slice_digest(slice_of(f->ph), d);
    d = texts_digest(f->tags, d);
    const char *const kin[] = {food_lead(f), f->family, f->part};
    for (size_t i = 0; i < sizeof kin / sizeof *kin; i++)
        d = slice_digest(slice_of(kin[i]), d);
    for (int r = 0; r < REGIONS_MOST; r++)
        d = slice_digest(slice_of(f->shown[r]), d);
    return d;
}

/* which form is the first, the default, is a value of each form, too */
static uint64_t
form_digest(const struct form *form, bool first)
{
    uint64_t d = figure_digest(&form->density, (uint64_t)form->drained_if_said << 2 |
                                                   (uint64_t)first << 1 | form->weighed_bought);
    d = figure_digest(&form->edible, texts_digest(form->words, d));
    for (size_t i = 0; i < form->piece_count; i++)
        d = figure_digest(&form->pieces[i].grams, slice_digest(slice_of(form->pieces[i].word), d));
    return d;
}

void
food_entries_renew(struct food *f, enum group g)
{
    const bool known = figure_known(&f->contents[g]) || figure_known(&f->bounds[g]);
    f->contents_entry[g].digest =
        known ? figure_digest(&f->bounds[g], figure_digest(&f->contents[g], 0)) : 0;
}

void
food_entries_build(struct arena *a, struct food *f)
{
    reads_entry_name(&f->identity, text_format(a, "food:%s", f->id));
    f->identity.digest = identity_digest(f);
    for (int g = 0; g < GROUPS; g++) {
        reads_entry_name(&f->contents_entry[g],
                         text_format(a, "food:%s/%s", f->id, groups_word((enum group)g)));
        food_entries_renew(f, (enum group)g);
    }
    reads_entry_name(&f->nutrients_entry, text_format(a, "food:%s/nutrients", f->id));
    for (int n = 0; n < NUTRIENTS; n++)
        if (figure_known(&f->nutrients[n]))
            f->nutrients_entry.digest =
                figure_digest(&f->nutrients[n], f->nutrients_entry.digest + (uint64_t)n + 1);
    reads_entry_name(&f->serve_entry, text_format(a, "food:%s/serve", f->id));
    for (size_t i = 0; i < f->form_count; i++) {
        struct form *form = &f->forms[i];
        reads_entry_name(&form->entry, text_format(a, "food:%s/%s", f->id, form->name));
        form->entry.digest = form_digest(form, i == 0);
    }
}
