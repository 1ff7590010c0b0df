#include "tables/food_pairs.h"

/* "low-sodium", "no added salt", "salt-reduced": a label's word, no other food to reckon with */
static void
soften_salt(const struct word_lists *lists, struct food_word *words, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        if (!slice_is(words[i].stem, "sodium") && !slice_is(words[i].stem, "salt"))
            continue;
        bool said = false;
        for (size_t k = i > 2 ? i - 2 : 0; k < count && k <= i + 2; k++)
            if (word_lists_have(lists, WORDS_LESS_SALT, words[k].stem)) {
                words[k].part = WORD_SOFT;
                said = true;
            }
        if (said)
            words[i].part = WORD_SOFT;
    }
}

/* "ready-rolled", "oven-ready", "cage-free", "free range", "day-old", "vacuum-packed" */
static bool
is_of_the_shop(struct slice first, struct slice second)
{
    return (slice_is(first, "ready") && (slice_is(second, "rolled") || slice_is(second, "made"))) ||
           (slice_is(first, "oven") && slice_is(second, "ready")) ||
           (slice_is(first, "cage") && slice_is(second, "free")) ||
           (slice_is(first, "day") && slice_is(second, "old")) ||
           (slice_is(first, "vacuum") && slice_is(second, "packed")) ||
           (slice_is(first, "free") && slice_is(second, "range"));
}

/* "ready to eat", "ready to roll", "straight to wok" */
static size_t
ready_to(struct food_word *words, size_t count)
{
    const bool is = count >= 3 &&
                    (slice_is(words[0].stem, "ready") || slice_is(words[0].stem, "straight")) &&
                    slice_is(words[1].stem, "to") && words[2].part == WORD_NAME;
    for (size_t i = 0; is && i < 3; i++)
        words[i].part = WORD_NOISE;
    return is ? 3 : 0;
}

static bool
is_side(struct slice stem)
{
    return slice_is(stem, "on") || slice_is(stem, "in");
}

/* "skin on", "bone-in", "in the shell": how it comes; marrow bones and pasta shells are named so */
static bool
is_covering(const struct word_lists *lists, const struct food_word *words, size_t count, size_t i)
{
    size_t before = i;
    while (before > 0 &&
           (slice_is(words[before - 1].stem, "the") || slice_is(words[before - 1].stem, "their")))
        before--;
    return word_lists_have(lists, WORDS_COVERINGS, words[i].stem) &&
           ((i + 1 < count && is_side(words[i + 1].stem)) ||
            (before > 0 && is_side(words[before - 1].stem)));
}

/* whether the word and the one behind it are one about a diet; both are marked so */
static bool
is_diet(struct food_word *w, struct food_word *next)
{
    if (next == NULL || !slice_is(next->stem, "free") ||
        (!slice_is(w->stem, "gluten") && !slice_is(w->stem, "dairy")))
        return false;
    w->part = next->part = WORD_DIET;
    w->diet = next->diet = slice_is(w->stem, "gluten") ? DIET_GLUTEN_FREE : DIET_DAIRY_FREE;
    return true;
}

void
food_pairs_join(const struct word_lists *lists, struct food_word *words, size_t count)
{
    soften_salt(lists, words, count);
    for (size_t i = 0; i < count; i++) {
        struct food_word *w = &words[i], *next = i + 1 < count ? w + 1 : NULL;
        const size_t ready = ready_to(w, count - i);
        if (ready > 0) {
            i += ready - 1;
        } else if (is_covering(lists, words, count, i)) {
            w->part = WORD_SOFT;
        } else if (next != NULL && (word_lists_have(lists, WORDS_COME_BY, next->stem) ||
                                    is_of_the_shop(w->stem, next->stem))) {
            w->part = next->part = WORD_NOISE;
            i++;
        } else if (next != NULL && slice_is(next->stem, "style") &&
                   word_lists_have(lists, WORDS_STYLES, w->stem)) {
            w->part = next->part = WORD_SOFT;
            i++;
        } else if (next != NULL && slice_is(next->stem, "ground") &&
                   word_lists_have(lists, WORDS_MILLING, w->stem)) {
            next->part = WORD_SOFT;
        } else if (slice_is(w->stem, "vegan") || slice_is(w->stem, "vegetarian")) {
            w->part = WORD_DIET;
            w->diet = slice_is(w->stem, "vegan") ? DIET_VEGAN : DIET_VEGETARIAN;
        } else if (next != NULL && slice_is(w->stem, "dried") && slice_is(next->stem, "roasted")) {
            w->part = WORD_NUT; /* "dry-roasted" */
        } else if (is_diet(w, next)) {
            i++;
        }
    }
}
