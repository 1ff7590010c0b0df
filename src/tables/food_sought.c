#include "tables/food_sought.h"

#include <string.h>

#include "tables/food_after_words.h"
#include "tables/food_cooked.h"
#include "tables/food_head.h"

static bool
is_can(struct slice stem)
{
    return slice_is(stem, "can") || slice_is(stem, "canned") || slice_is(stem, "jar");
}

/* whether every word of the question is of the name that was found */
static bool
uses_all(const struct food_query *q, const struct food_match *match)
{
    for (size_t i = 0; i < q->count; i++)
        if (q->words[i].part != WORD_GLUE && (match->used >> i & 1) == 0)
            return false;
    return true;
}

/* a tin said beside the name makes it the canned food, where there is one */
static bool
search_tinned(struct food_query *q, const struct sought *sought, struct food_match *match)
{
    bool tinned = sought->tinned;
    size_t kept = 0;
    struct food_query bare = *q;
    for (size_t i = 0; i < q->count; i++) {
        if (is_can(q->words[i].stem) && q->count > 1)
            tinned = true;
        else
            bare.words[kept++] = q->words[i];
    }
    bare.count = kept;
    if (!tinned)
        return false;
    if (kept < q->count && food_search(q, match) && uses_all(q, match))
        return true; /* "minced garlic in a jar" is a name */
    if (food_search_with(&bare, SLICE("canned"), match)) {
        *q = bare;
        return true;
    }
    if (!food_search(&bare, match))
        return false;
    *q = bare;
    return true;
}

/* the juice or zest of the food: by its own name, or as that of the food which has this one:
 * "zest of 1 navel orange" */
static bool
search_part(const struct food_query *q, struct slice part, struct food_match *match)
{
    struct food_match whole = {0};
    if (food_search_with(q, part, match))
        return true;
    if (!food_search(q, &whole))
        return false;
    const struct food_row *row =
        map_get(&q->larder->by_id,
                text_formatted(q->arena, "%s-%.*s", whole.row->food.id, SLICE_ARGS(part)));
    if (row == NULL)
        return false;
    *match = whole;
    match->row = row;
    match->rival = NULL;
    return true;
}

/* whether the food has a form of that name */
static bool
has_part(const struct food_query *q, const char *part)
{
    struct food_match whole = {0};
    if (!food_search(q, &whole))
        return false;
    for (size_t i = 0; i < whole.row->food.form_count; i++)
        if (slice_is(slice_of(whole.row->food.forms[i].name), part))
            return true;
    return false;
}

static bool
search_all(struct food_query *q, const struct sought *sought, const struct after *after,
           struct food_match *match)
{
    if (sought->part != NULL && search_part(q, slice_of(sought->part), match))
        return true;
    if (sought->part != NULL && !has_part(q, sought->part))
        return false; /* the zest of it is not it */
    switch (food_after_search(q, sought, after, match)) {
    case AFTER_FOUND:
        return true;
    case AFTER_ELSE:
        return false;
    case AFTER_NOTHING:
        break;
    }
    return search_tinned(q, sought, match) || food_search(q, match) ||
           food_search_said_cooked(q, match);
}

/* "cottage cheese, with chives" is more than cottage cheese, and mackerel in tomato sauce more than
 * mackerel */
static bool
is_with_other(const struct food_query *q, const struct after *after)
{
    for (size_t i = 0; i < after->count; i++) {
        const struct food_word *w = &after->words[i];
        const bool in = i == 0 && slice_is(w->stem, "in");
        if (!after->begins[i] || (!in && !slice_is(w->stem, "with")))
            continue;
        size_t end = i + 1;
        while (end < after->count && !after->begins[end])
            end++;
        if (!food_said_packed(q->larder->words, w, end - i) &&
            food_with_other(q->larder, q->arena, w, end - i))
            return true;
    }
    return false;
}

/* a name with a comma in it: "wakame, soaked", whatever else is done to it */
static bool
search_whole(const struct food_query *q, const struct after *after, struct food_match *match)
{
    struct food_query whole = *q;
    if (after->count == 0 || q->count + after->count > FOOD_WORDS_MOST)
        return false;
    for (size_t i = 0; i < after->count; i++)
        whole.words[whole.count++] = after->words[i];
    if (food_search_exactly(&whole, true, match))
        return true;
    for (size_t i = 0; i < after->count && after->count > 1; i++) {
        whole.count = q->count + 1;
        whole.words[q->count] = after->words[i];
        if (food_after_word_is_deed(after->lists, &after->words[i]) &&
            food_search_exactly(&whole, true, match))
            return true;
    }
    return false;
}

/* "olive oil, garlic infused": what was done stands behind, and before it makes a name of its own
 */
static bool
search_turned(const struct food_query *q, const struct after *after, struct food_match *match)
{
    for (size_t at = 0; at < after->count;) {
        size_t end = at + 1;
        while (end < after->count && !after->begins[end])
            end++;
        const size_t count = end - at;
        struct food_query whole = *q;
        whole.count = 0;
        bool state = false; /* "grapes, canned, Thompson seedless" */
        for (size_t i = 0; i < after->count; i++)
            state =
                state || ((i < at || i >= end) &&
                          word_lists_have(after->lists, WORDS_BEHIND_STATES, after->words[i].stem));
        if (!state && count > 1 && count + q->count <= FOOD_WORDS_MOST &&
            after->words[at].part == WORD_NAME) {
            memcpy(whole.words, after->words + at, count * sizeof *whole.words);
            memcpy(whole.words + count, q->words, q->count * sizeof *whole.words);
            whole.count = count + q->count;
            if (food_search_exactly(&whole, false, match))
                return true;
        }
        at = end;
    }
    return false;
}

bool
food_sought_find(struct food_query *q, const struct sought *sought, const struct after *after,
                 struct food_match *match)
{
    *match = (struct food_match){0};
    return search_whole(q, after, match) || search_turned(q, after, match) ||
           (!is_with_other(q, after) && search_all(q, sought, after, match));
}
