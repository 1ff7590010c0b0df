#include "judge/strained.h"

#include <string.h>

/* g per 100 g of a group from which on what is left behind is worth a word */
static const double matters = 0.2;

static bool
does(const struct clause *c, const char *id)
{
    for (size_t k = 0; k < c->sign_count; k++)
        if (c->first_sign[k].done && strcmp(c->first_sign[k].row->id, id) == 0)
            return true;
    return false;
}

static bool
carries_soluble(const struct ingredient *in, struct reads *reads)
{
    static const enum group groups[] = {FRUCTAN, GALACTO_OLIGOSACCHARIDE, SORBITOL, MANNITOL};
    for (size_t o = 0; o < in->option_count; o++)
        for (size_t k = 0; k < in->options[o].count; k++)
            for (size_t g = 0; g < sizeof groups / sizeof *groups; g++) {
                const struct food *f = in->options[o].helpings[k].food;
                const struct figure *content = f != NULL ? food_content(f, groups[g], reads) : NULL;
                if (content != NULL && figure_known(content) && content->span.mid >= matters)
                    return true;
            }
    return false;
}

/* whether any of a set is water or made of it */
static bool
has_liquid(const struct dish *d, const struct ingredient_set *set)
{
    for (size_t i = 0; i < d->count; i++)
        if (ingredient_set_has(set, i) &&
            words_have(d->ingredients[i].words,
                       words_list(d->ingredients[i].words, WORDS_STRAINED_LIQUIDS)))
            return true;
    return false;
}

/* whether the ingredient was in something watery before clause `at` */
static bool
was_wet(const struct judging *j, size_t at, size_t ingredient)
{
    const struct clauses *all = j->clauses;
    for (size_t i = 0; i < at; i++) {
        const struct clause *c = &all->items[i];
        if (c->negated || !ingredient_set_has(&c->wide, ingredient))
            continue;
        if (does(c, "boil") || does(c, "simmer") || does(c, "steam") || does(c, "soaking") ||
            does(c, "slow-cook") ||
            ((does(c, "cook") || does(c, "infusing") || does(c, "adding") || does(c, "leaving") ||
              does(c, "bake")) &&
             has_liquid(j->dish, &c->wide)))
            return true;
    }
    return false;
}

/* "discard the onion skins": what is taken out never was in it; "set the onion aside": it comes
 * back
 */
static bool
is_trimming(const struct clause *c)
{
    const struct words *w = c->passage->words;
    return words_any(w, words_list(w, WORDS_TRIMMINGS), words_sentence_from(w, c->from),
                     words_sentence_to(w, c->from), NULL) != NULL;
}

/* whether a later clause names it again: it was only put aside */
static bool
comes_back(const struct clauses *all, size_t at, size_t ingredient)
{
    for (size_t i = at + 1; i < all->count; i++)
        if (all->items[i].passage->kind == PASSAGE_STEP && !all->items[i].negated &&
            ingredient_set_has(&all->items[i].named, ingredient) &&
            !does(&all->items[i], "straining") && !does(&all->items[i], "sieving"))
            return true;
    return false;
}

/* "strain the stock" takes out all that is solid; other verbs only what they name, or the one thing
 * that "it" is */
static bool
takes_out(const struct clause *c, size_t ingredient)
{
    if (does(c, "sieving"))
        return ingredient_set_has(&c->wide, ingredient);
    return does(c, "straining") && !is_trimming(c) &&
           ((ingredient_set_has(&c->named, ingredient) && c->on == ACTS_ON_NAMED) ||
            (c->on == ACTS_ON_IT && c->object == ingredient));
}

void
strained_judge(const struct judging *j)
{
    const struct clauses *all = j->clauses;
    for (size_t n = 0; n < j->dish->count && n < ACTED_ON_MOST; n++) {
        const struct ingredient *in = &j->dish->ingredients[n];
        struct ingredient_set own = {{0}};
        ingredient_set_put(&own, n);
        if (!carries_soluble(in, j->reads) || has_liquid(j->dish, &own))
            continue;
        for (size_t i = 0; i < all->count; i++) {
            const struct clause *c = &all->items[i];
            if (c->passage->kind != PASSAGE_STEP || c->negated || c->remark || !takes_out(c, n) ||
                !was_wet(j, i, n) || comes_back(all, i, n))
                continue;
            const struct words *w = c->passage->words;
            notice_add(j->notices, RULE_STRAINED_OUT,
                       passages_place(c->passage, w->items[c->from].from, w->items[c->end - 1].to),
                       ingredient_called(in), SLICE(""));
            break;
        }
    }
}
