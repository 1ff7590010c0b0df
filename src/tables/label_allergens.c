#include "tables/label_allergens.h"

#include "read/words.h"

enum { ALL_DIETS = (1 << DIETS) - 1, CAPITALS_LEAST = 3 };

#define BIT(allergen) (1u << (allergen))

/* gluten with the cereals that are named for it */
static const uint32_t GLUTENS = BIT(ALLERGEN_GLUTEN) | BIT(ALLERGEN_WHEAT) | BIT(ALLERGEN_RYE) |
                                BIT(ALLERGEN_BARLEY) | BIT(ALLERGEN_OATS);

static uint32_t
allergen_bit(const char *word)
{
    for (int i = 0; i < ALLERGENS; i++)
        if (slice_is(slice_of(word), groups_allergen_at(i)))
            return BIT(i) | ((GLUTENS >> i & 1) != 0 ? BIT(ALLERGEN_GLUTEN) : 0);
    return 0;
}

/* in capitals throughout, and long enough to be a word */
static bool
is_capitals(struct slice word)
{
    for (size_t i = 0; i < word.length; i++)
        if (word.at[i] >= 'a' && word.at[i] <= 'z')
            return false;
    return word.length >= CAPITALS_LEAST && word.at[0] >= 'A' && word.at[0] <= 'Z';
}

/* the allergens that words of a text are for; `capitals`: of words in capitals alone */
static uint32_t
allergens_in(const struct label_work *w, struct slice text, bool capitals)
{
    const struct word_lists *lists = w->larder->words;
    const char *const *all = word_lists_all(lists, WORDS_LABEL_ALLERGENS);
    struct words words;
    uint32_t bits = 0;
    words_read(w->scratch, lists, text, &words);
    for (size_t i = 0; i < words.count; i++) {
        size_t longest = 0;
        const char *best = NULL;
        const struct word *at = &words.items[i];
        if (capitals && !is_capitals(slice_part(text, at->from, at->to)))
            continue;
        for (size_t k = 0; all[k] != NULL; k++) {
            const size_t count = words_at(&words, i, all[k]);
            best = count > longest ? all[k] : best;
            longest = count > longest ? count : longest;
        }
        if (best != NULL)
            bits |=
                allergen_bit(word_lists_value(lists, WORDS_LABEL_ALLERGENS, slice_of(best))->text);
    }
    return bits;
}

/* whether a list is all in capitals, so that none of them flags anything */
static bool
is_shouted(struct slice list)
{
    size_t upper = 0, lower = 0;
    for (size_t i = 0; i < list.length; i++) {
        upper += list.at[i] >= 'A' && list.at[i] <= 'Z';
        lower += list.at[i] >= 'a' && list.at[i] <= 'z';
    }
    return upper > lower;
}

/* "gluten-free oats" are said to keep what oats may break */
static bool
says_free(struct slice all)
{
    return slice_find(all, "luten-free", 0) != SIZE_MAX ||
           slice_find(all, "luten free", 0) != SIZE_MAX;
}

static void
tell_claim(const struct label_work *w, struct place place, struct slice what, uint32_t broken)
{
    for (int d = 0; d < DIETS; d++)
        if ((broken >> d & 1) != 0)
            notice_add_mended(w->notices, RULE_TABLE_ROW_WRONG, place, slice_of(w->food->id),
                              text_formatted(w->notices->arena,
                                             "it claims to be %s, and has %.*s in it",
                                             groups_diet_at(d), SLICE_ARGS(what)),
                              SLICE("Look at the packet again. Until then it is taken not to be."));
}

/* what the allergens that are named break. A claim of no gluten holds: wheat starch and oats can be
 * free of it, and are named all the same. */
static void
break_by_allergens(const struct label_work *w)
{
    struct food *f = w->food;
    for (int d = 0; d < DIETS; d++) {
        const uint32_t bit = 1u << d, by = f->allergens & groups_diet((enum diet)d)->rules_out;
        if (by == 0 || (f->breaks & bit) != 0 ||
            (d == DIET_GLUTEN_FREE && (f->label->claims & bit) != 0))
            continue;
        f->breaks |= bit;
        int first = 0;
        while ((by >> first & 1) == 0)
            first++;
        tell_claim(w, f->label->list_place, slice_of(groups_allergen_at(first)),
                   f->label->claims & bit);
    }
}

static void
add_part(const struct label_work *w, const struct label_part *p)
{
    struct food *f = w->food;
    const struct label *l = f->label;
    if (p->food == NULL) { /* open: its words may name an allergen, and its diets nobody knows */
        f->allergens |= allergens_in(w, p->all, false);
        f->labelled |= ALL_DIETS & ~l->claims;
        return;
    }
    uint32_t breaks = p->food->breaks, allergens = p->food->allergens;
    if (says_free(p->all))
        breaks &= ~(1u << DIET_GLUTEN_FREE);
    if ((l->claims >> DIET_GLUTEN_FREE & 1) != 0 && (breaks >> DIET_GLUTEN_FREE & 1) == 0)
        allergens &= ~GLUTENS; /* of a yeast extract or an oat that others make with it */
    f->allergens |= allergens;
    f->breaks |= breaks;
    f->labelled |= p->food->labelled & ~l->claims;
    if (!l->states_allergens)
        f->may_carry |= p->food->may_carry, f->traces |= p->food->traces;
    tell_claim(w, p->place, p->name, breaks & l->claims);
}

void
label_allergens_settle(const struct label_work *w)
{
    struct food *f = w->food;
    struct label *l = f->label;
    const uint32_t flagged = is_shouted(l->list) ? 0 : allergens_in(w, l->list, true);
    l->states_allergens = flagged != 0 || l->contains.length > 0 || f->allergens != 0;
    f->allergens |= flagged | allergens_in(w, l->contains, false);
    f->traces |= allergens_in(w, l->may_contain, false);
    if (!figure_known(&f->grounds))
        f->grounds = (struct figure){.source = l->source, .basis = BASIS_PUBLISHED};
    for (size_t i = 0; i < l->part_count; i++)
        if (l->parts[i].counted)
            add_part(w, &l->parts[i]);
    break_by_allergens(w);
    if (l->part_count == 0)
        f->labelled |= ALL_DIETS & ~l->claims;
    f->may_carry &= ~f->allergens;
    f->traces &= ~(f->allergens | f->may_carry);
    f->labelled &= ~f->breaks;
}
