#include "write/allergen_list.h"

#include "write/ingredient_name.h"

/* whether it is named within gluten, in its brackets: both are there, or both may be */
static bool
is_within_gluten(const struct claims *all, const struct carried_allergen *c)
{
    for (size_t i = 0; groups_allergen_is_cereal(c->allergen) && i < all->allergen_count; i++)
        if (all->allergens[i].allergen == ALLERGEN_GLUTEN)
            return all->allergens[i].may_carry == c->may_carry;
    return false;
}

/* " (wheat, rye)" behind gluten */
static void
add_cereals(struct text *t, const struct claims *all, bool may)
{
    const char *between = " (";
    for (size_t i = 0; i < all->allergen_count; i++) {
        const struct carried_allergen *c = &all->allergens[i];
        if (c->may_carry != may || !is_within_gluten(all, c))
            continue;
        text_addf(t, "%s%s", between, groups_allergen_name(c->allergen));
        between = ", ";
    }
    text_add_string(t, between[0] == ',' ? ")" : "");
}

static void
add_carried(struct text *t, const struct fragment_context *s, size_t region, bool may)
{
    const struct region *law = fragment_region(s, region);
    const bool gluten = ingredient_name_by_law(law, ALLERGEN_GLUTEN);
    bool first = true;
    for (size_t i = 0; i < s->o->claims.allergen_count; i++) {
        const struct carried_allergen *c = &s->o->claims.allergens[i];
        if (c->may_carry != may || !ingredient_name_by_law(law, c->allergen) ||
            (gluten && is_within_gluten(&s->o->claims, c)))
            continue;
        text_add_string(t, !first ? ", "
                           : may  ? " May contain, unless the label says otherwise: "
                                  : "Contains: ");
        text_add_string(t, "<strong class=\"dl-allergen\">");
        text_add_string(t, groups_allergen_name(c->allergen));
        if (c->allergen == ALLERGEN_GLUTEN)
            add_cereals(t, &s->o->claims, may);
        text_add_string(t, c->on_choice ? "</strong> (depends on a choice)" : "</strong>");
        first = false;
    }
    if (!first)
        text_add_byte(t, '.');
    else if (!may && s->o->claims.unknown.length == 0)
        text_add_string(t, "None of the allergens that must be named is in it.");
    if (may && s->o->claims.unknown.length > 0) {
        text_add_string(t, " Not known: what ");
        text_add_html(t, s->o->claims.unknown);
        text_add_string(t, " carries.");
    }
}

void
allergen_list_write(struct text *t, const struct fragment_context *s)
{
    struct slice pieces[REGIONS_MOST];
    for (size_t i = 0; i < s->region_count; i++) {
        struct text piece = text_new(s->arena);
        add_carried(&piece, s, i, false);
        add_carried(&piece, s, i, true);
        pieces[i] = text_slice(&piece);
    }
    text_add_string(t, "<p class=\"dl-allergens\">");
    fragment_vary(t, s, "span", pieces);
    text_add_string(t, "</p>\n");
}
