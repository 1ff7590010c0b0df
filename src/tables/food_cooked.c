#include "tables/food_cooked.h"

#include <string.h>

bool
food_search_with(const struct food_query *q, struct slice stem, struct food_match *match)
{
    struct food_query more = *q;
    if (more.count >= FOOD_WORDS_MOST + 1)
        return false;
    more.words[more.count++] = (struct food_word){stem, WORD_NAME, DIET_VEGAN, q->bytes, q->bytes};
    return food_search(&more, match) && (match->used >> q->count & 1) != 0;
}

/* whether the words behind the comma say that it is measured cooked: "rice, cooked and cooled"; not
 * when they say how or for how long, which is the method: "rice, cooked until tender" */
bool
food_said_cooked(const struct word_lists *lists, const struct food_word *words, size_t count)
{
    bool cooked = false;
    for (size_t i = 0; i < count; i++) {
        const struct food_word *w = &words[i];
        bool idle = w->part == WORD_GLUE || w->part == WORD_NOISE || w->part == WORD_CUT ||
                    w->part == WORD_HOW || w->part == WORD_STATE;
        const bool says = slice_is(w->stem, "cooked") || slice_is(w->stem, "precooked");
        idle = idle || word_lists_have(lists, WORDS_BESIDE_COOKED, w->stem);
        if (!idle && !says)
            return false;
        cooked = cooked || says;
    }
    return cooked;
}

/* "400 g dry pasta, cooked": what is measured is dry */
bool
food_said_raw(const struct food_query *q)
{
    for (size_t i = 0; i < q->count; i++)
        if (word_lists_have(q->larder->words, WORDS_RAW, q->words[i].stem))
            return true;
    return false;
}

/* takes the cooked one of the food that was found: cooked-pasta of pasta, lentil-cooked of
 * lentil-dried */
static bool
take_cooked(const struct food_query *q, struct food_match *match)
{
    struct slice id = slice_of(match->row->food.id);
    if (slice_ends(id, "-dried"))
        id = slice_part(id, 0, id.length - strlen("-dried"));
    const struct food_row *row =
        map_get(&q->larder->by_id, text_formatted(q->arena, "cooked-%.*s", SLICE_ARGS(id)));
    if (row == NULL)
        row = map_get(&q->larder->by_id, text_formatted(q->arena, "%.*s-cooked", SLICE_ARGS(id)));
    if (row == NULL)
        return false;
    match->row = row;
    match->rival = NULL;
    match->piece_word = NULL;
    return true;
}

/* "cooked pasta shells": a food that has a cooked one, by a name that only the raw one has */
bool
food_search_said_cooked(const struct food_query *q, struct food_match *match)
{
    struct food_query raw = *q;
    bool raw_said = false;
    for (size_t i = 0; i < raw.count; i++)
        if (slice_is(raw.words[i].stem, "cooked") && q->count > 1) {
            raw.words[i].part = WORD_NOISE;
            raw_said = true;
        }
    return raw_said && food_search(&raw, match) && take_cooked(q, match);
}

/* "1 cup rice, cooked": the cooked food, where it is measured by weight or volume; pieces are those
 * of the raw one. What swells or shrinks is told to be either. */
bool
food_search_cooked(const struct food_query *q, const struct food_word *words, size_t count,
                   struct food_match *match)
{
    struct food_match raw = {0};
    if ((q->by != BY_WEIGHT && q->by != BY_CUP && q->by != BY_SPOON) || food_said_raw(q))
        return false;
    if (!food_said_cooked(q->larder->words, words, count) ||
        (!food_search_with(q, SLICE("cooked"), match) &&
         !(food_search(q, match) && take_cooked(q, match))))
        return false;
    if (food_search(q, &raw) && raw.row != match->row && match->rival == NULL &&
        food_swells(&raw.row->food, q->by))
        match->rival = raw.row;
    return true;
}
