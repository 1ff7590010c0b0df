#include "tables/food_head.h"

#include "tables/food_stems.h"

/* whether the noun that a name is about stands before this word: "cream of coconut", "tuna in oil"
 */
static bool
ends_head(const struct food_word *w)
{
    return w->part == WORD_STOP || slice_is(w->stem, "of") || slice_is(w->stem, "in") ||
           slice_is(w->stem, "on");
}

/* words that describe and also stand behind their noun: "onions red", "tomatoes canned" */
static bool
describes(const struct larder *l, const struct food_word *w)
{
    return w->part != WORD_NAME || word_lists_have(l->words, WORDS_BEHIND_THEIR_NOUN, w->stem);
}

/* the word that stands last among those of the mask, before "of"; SIZE_MAX: none. A name that is
 * of describing words alone ends in the last of them. */
static size_t
last_of(const struct food_word *words, size_t count, uint32_t mask, const struct larder *nouns)
{
    size_t last = SIZE_MAX, any = SIZE_MAX;
    for (size_t i = 0; i < count; i++) {
        if (any != SIZE_MAX && ends_head(&words[i]))
            break;
        if ((mask >> i & 1) == 0 || words[i].part == WORD_GLUE)
            continue;
        any = i;
        if (nouns != NULL ? !describes(nouns, &words[i]) : words[i].part == WORD_NAME)
            last = i;
    }
    return last != SIZE_MAX ? last : any;
}

struct slice
food_head(const struct food_word *words, size_t count)
{
    const size_t last = last_of(words, count, UINT32_MAX, NULL);
    return last != SIZE_MAX ? words[last].stem : SLICE("");
}

/* whether the stem alone is a name of the food */
static bool
names_alone(const struct larder *l, struct slice stem, const struct food_row *row)
{
    for (const struct food_name *n = map_get(&l->names, stem); n != NULL; n = n->next)
        if (n->row == row)
            return true;
    return false;
}

bool
food_head_in_order(const struct food_query *q, uint32_t used, const struct food_name *name)
{
    struct slice stems[FOOD_WORDS_MOST + 2];
    size_t count = 0;
    for (size_t i = 0; i < q->count; i++) {
        if ((used >> i & 1) == 0)
            continue;
        if (q->words[i].from >= q->bytes)
            return false;
        stems[count++] = q->words[i].stem;
    }
    return slice_equal(food_stems_spaced(q->arena, stems, count), name->order);
}

enum head_fit
food_head_fits(const struct food_query *q, uint32_t used, const struct food_name *name)
{
    size_t written = 0;
    while (written < q->count && q->words[written].from < q->bytes)
        written++;
    const size_t last = last_of(q->words, written, used, NULL);
    if ((used & (used - 1)) == 0 || last == SIZE_MAX ||
        slice_equal(q->words[last].stem, name->head))
        return HEAD_SAME;
    const size_t noun = last_of(q->words, written, used, q->larder);
    if (slice_equal(q->words[noun].stem, name->head) ||
        names_alone(q->larder, q->words[last].stem, name->row))
        return HEAD_SAME;
    for (size_t i = written; i < q->count; i++)
        if ((used >> i & 1) != 0 && slice_equal(q->words[i].stem, name->head))
            return HEAD_PUT_IN;
    return HEAD_OTHER;
}

bool
food_head_strange(const struct food_query *q, size_t i)
{
    const bool last =
        i + 1 >= q->count || q->words[i + 1].from >= q->bytes || ends_head(&q->words[i + 1]);
    return i > 0 && last && q->words[i].from < q->bytes &&
           word_lists_have(q->larder->words, WORDS_NOUN_LAST, q->words[i].stem);
}

bool
food_with_other(const struct larder *l, struct arena *a, const struct food_word *words,
                size_t count)
{
    /* parts of the food itself, and what it may be packed with that adds nothing of its own */
    for (size_t i = 1; i < count && words[i].part != WORD_STOP; i++) {
        if (words[i].part != WORD_NAME ||
            word_lists_have(l->words, WORDS_PARTS_OF_FOODS, words[i].stem))
            continue;
        if (map_get(&l->names, words[i].stem) != NULL)
            return true;
        struct slice pair[] = {words[i].stem, i + 1 < count ? words[i + 1].stem : SLICE("")};
        if (i + 1 < count && map_get(&l->names, food_stems_key(a, pair, 2)) != NULL)
            return true;
    }
    return false;
}
