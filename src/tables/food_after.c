#include "tables/food_after.h"

#include <string.h>

#include "tables/food_after_words.h"
#include "tables/food_cooked.h"

static void
build_kinds(const struct food_query *q, const struct kinds *kinds, struct food_query *out)
{
    *out = *q;
    for (size_t i = 0; i < kinds->count && out->count < FOOD_WORDS_MOST + 2; i++)
        out->words[out->count++] = kinds->words[i];
}

/* whether the food has all that it must; *any: it has something of what stands behind the comma */
static bool
has_all(const struct food_query *q, const struct kinds *kinds, const struct food_match *match,
        bool *any)
{
    bool all = true;
    *any = false;
    for (size_t i = 0; i < kinds->count; i++) {
        const bool used = (match->used >> (q->count + i) & 1) != 0;
        *any = *any || used;
        const bool grain = slice_is(kinds->words[i].stem, "dried") && !match->row->food.fresh;
        const bool kept =
            kinds->diet[i] && (match->row->food.breaks >> kinds->words[i].diet & 1) == 0;
        if (!used && kinds->obliged[i] && !grain && !kept &&
            !food_said_in_names(q->larder->words, q->arena, match->row, kinds->words[i].stem))
            all = false;
    }
    return all;
}

/* the part of a leek or spring onion, where the larder has it as a food of its own, or NULL */
static const struct food_row *
part_of(const struct food_query *q, const struct food_row *whole, const char *colour)
{
    return colour == NULL ? NULL
                          : map_get(&q->larder->by_id,
                                    text_formatted(q->arena, "%s-%s", whole->food.id, colour));
}

static bool
search_colour(const struct food_query *q, const char *colour, struct food_match *match)
{
    struct food_match whole = {0};
    if (!food_search(q, &whole))
        return false;
    const struct food_row *part = part_of(q, whole.row, colour);
    if (part == NULL)
        return false;
    *match = whole;
    match->row = part;
    match->rival = NULL;
    return true;
}

/* the general noun that is all of the name, with its class as the kind; NULL: it is none */
static const struct word_value *
general_of(const struct food_query *q)
{
    const struct food_word *only = NULL;
    for (size_t i = 0; i < q->count; i++) {
        if (q->words[i].part != WORD_NAME)
            continue;
        if (only != NULL)
            return NULL;
        only = &q->words[i];
    }
    return only != NULL ? word_lists_value(q->larder->words, WORDS_GENERAL_NOUNS, only->stem)
                        : NULL;
}

/* the food that a piece of nouns names by itself */
static bool
search_nouns(const struct food_query *q, const struct food_said *said, struct food_match *match)
{
    struct food_query alone = *q;
    alone.count = 0;
    for (size_t i = 0; i < said->nouns.count; i++) {
        alone.words[alone.count] = said->nouns.words[i];
        alone.words[alone.count].to = q->bytes > 0 ? q->bytes : 1;
        alone.words[alone.count].from = i;
        alone.count++;
    }
    return alone.count > 0 && food_search(&alone, match);
}

/* whether the words of the match may mean the food: "cornflour" is in "gluten-free cornflour" */
static bool
may_mean(const struct food_query *q, const struct food_match *match, const struct food_row *row)
{
    for (size_t i = 0; i < q->count; i++)
        if ((match->used >> i & 1) != 0 &&
            !food_said_in_names(q->larder->words, q->arena, row, q->words[i].stem))
            return false;
    return match->used != 0;
}

/* whether the food breaks a diet that is said of it */
static bool
breaks_diet(const struct kinds *kinds, const struct food *f)
{
    for (size_t i = 0; i < kinds->count; i++)
        if (kinds->diet[i] && (f->breaks >> kinds->words[i].diet & 1) != 0)
            return true;
    return false;
}

/* whether a state is said, "canned", "smoked", that no name of the food has */
static bool
lacks_state(const struct food_query *q, const struct kinds *kinds, const struct food_row *row)
{
    for (size_t i = 0; i < kinds->count; i++)
        if (word_lists_have(q->larder->words, WORDS_BEHIND_STATES, kinds->words[i].stem) &&
            !(slice_is(kinds->words[i].stem, "dried") && !row->food.fresh) &&
            !food_said_in_names(q->larder->words, q->arena, row, kinds->words[i].stem))
            return true;
    return false;
}

/* a bracket or a piece of nouns that names a food by itself: "cornflour (cornstarch)", "turnip
 * (rutabaga)", "nuts, almonds". Beside what is made of something a bracket names what it is made
 * of: "pesto (basil)". */
static enum after_said
resolve_nouns(const struct food_query *q, const struct food_said *said, struct food_match *match)
{
    struct food_match base = {0}, named = {0};
    const bool known = food_search(q, &base);
    const struct word_value *general = general_of(q);
    if (known && breaks_diet(&said->kinds, &base.row->food))
        return AFTER_ELSE; /* "ramen (gluten-free)" is another one */
    if (known && said->makings && general == NULL && !base.row->food.fresh)
        return AFTER_NOTHING;           /* "buns (rice and tapioca)": what they are made of */
    if (!search_nouns(q, said, &named)) /* "cloves (laung)" may be another tongue's word */
        return said->bracketed && general == NULL ? AFTER_NOTHING : AFTER_ELSE;
    const struct food *f = &named.row->food;
    const bool fits = general != NULL && f->food_class == (enum food_class)general->kind;
    if (lacks_state(q, &said->kinds, named.row))
        return AFTER_ELSE; /* "grapes, canned, Thompson" */
    if (known && base.row == named.row)
        return AFTER_NOTHING;
    if (known && said->bracketed && !fits && !may_mean(q, &base, named.row)) {
        const struct food *b = &base.row->food;
        if (!b->fresh && f->fresh)
            return AFTER_NOTHING;
        if (!b->fresh || !f->fresh || b->food_class != f->food_class) {
            *match = base; /* "soy sauce (tamari)": either, and told */
            match->rival = named.row;
            return AFTER_FOUND;
        }
    } else if (!fits && !(known && may_mean(q, &base, named.row))) {
        return AFTER_ELSE;
    }
    for (size_t i = 0; i < said->kinds.count; i++) /* "peppers, chilli, sun-dried" */
        if (said->kinds.obliged[i] && !said->kinds.diet[i] &&
            !food_said_in_names(q->larder->words, q->arena, named.row, said->kinds.words[i].stem))
            return AFTER_ELSE;
    *match = known ? base : named;
    match->row = named.row;
    match->rival = NULL;
    match->piece_word = NULL;
    if (!known)
        match->used = 0;
    return AFTER_FOUND;
}

/* "1 cup cabbage, red, cooked". What falls together or swells, and has no cooked one, is not
 * known by volume. */
static enum after_said
search_cooked(const struct food_query *q, const struct food_said *said, struct food_match *match)
{
    struct food_query named;
    struct kinds kinds = {.count = 0};
    bool any, dried = false;
    for (size_t i = 0; i < said->kinds.count; i++) {
        dried = dried || slice_is(said->kinds.words[i].stem, "dried");
        if (slice_is(said->kinds.words[i].stem, "frozen"))
            continue;
        kinds.words[kinds.count] = said->kinds.words[i];
        kinds.diet[kinds.count] = said->kinds.diet[i];
        kinds.obliged[kinds.count++] = said->kinds.obliged[i];
    }
    build_kinds(q, &kinds, &named);
    if (food_search_cooked(&named, said->cooked.words, said->cooked.count, match))
        return has_all(q, &kinds, match, &any) ? AFTER_FOUND : AFTER_ELSE;
    const bool swells = (q->by == BY_CUP || q->by == BY_SPOON) && !dried && !food_said_raw(q) &&
                        food_search(&named, match) && food_swells(&match->row->food, q->by);
    return swells ? AFTER_ELSE : AFTER_NOTHING;
}

enum after_said
food_after_search(const struct food_query *q, const struct sought *sought,
                  const struct after *after, struct food_match *match)
{
    struct food_said said;
    struct food_query whole;
    bool any = false;
    food_said_hear(q, sought, after, &said);
    if (said.colour != NULL && search_colour(q, said.colour, match))
        return AFTER_FOUND;
    const enum after_said cooked =
        said.cooked.count > 0 ? search_cooked(q, &said, match) : AFTER_NOTHING;
    if (cooked != AFTER_NOTHING || said.kinds.count == 0)
        return cooked;
    build_kinds(q, &said.kinds, &whole);
    const bool found = food_search(&whole, match);
    if (found && has_all(q, &said.kinds, match, &any)) {
        const struct food_row *part = part_of(q, match->row, said.colour);
        match->row = part != NULL ? part : match->row; /* "onions, spring, green part" */
        return any ? AFTER_FOUND : AFTER_NOTHING;
    }
    if (said.nouns.count > 0)
        return resolve_nouns(q, &said, match);
    return found ? AFTER_ELSE : AFTER_NOTHING;
}
