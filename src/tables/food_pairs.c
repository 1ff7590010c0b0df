#include "tables/food_pairs.h"

#define COUNT(table) (sizeof(table) / sizeof *(table))

/* "low-sodium", "no added salt", "salt-reduced": a label's word, no other food to reckon with */
static void
soften_salt(struct food_word *words, size_t count)
{
    static const char *const less[] = {"low", "lower", "reduced", "less", "no", "added"};
    for (size_t i = 0; i < count; i++) {
        if (!slice_is(words[i].stem, "sodium") && !slice_is(words[i].stem, "salt"))
            continue;
        bool front_value = false;
        for (size_t k = i > 2 ? i - 2 : 0; k < count && k <= i + 2; k++)
            for (size_t w = 0; w < sizeof less / sizeof *less; w++)
                if (slice_is(words[k].stem, less[w])) {
                    words[k].part = WORD_SOFT;
                    front_value = true;
                }
        if (front_value)
            words[i].part = WORD_SOFT;
    }
}

/* how it was grown, caught or come by, whatever stands before it: "grass-fed", "wild-caught",
 * "sustainably sourced", "shop-bought" */
static bool
is_come_by(struct slice stem)
{
    static const char *const words[] = {"fed",   "raised", "reared", "caught",    "sourced",
                                        "grown", "farmed", "bought", "harvested", "grade"};
    return food_stem_among(stem, words, COUNT(words));
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

/* "Greek-style", "restaurant-style": a manner; "chicken-style" is another food than chicken */
static bool
is_manner(struct slice first, struct slice second)
{
    static const char *const of[] = {
        "american", "artisan",     "asian",   "bavarian",   "bulgarian", "chinese",  "country",
        "deli",     "english",     "euro",    "european",   "farmhouse", "french",   "german",
        "greek",    "balkan",      "dijon",   "brick",      "lebanese",  "danish",   "russian",
        "moroccan", "home",        "indian",  "irish",      "italian",   "japanese", "korean",
        "mexican",  "middle",      "natural", "restaurant", "rustic",    "spanish",  "swiss",
        "thai",     "traditional", "turkish", "vietnamese",
    };
    return slice_is(second, "style") && food_stem_among(first, of, COUNT(of));
}

/* "stone-ground", "medium-ground": how fine a meal is, which only a name of its own tells apart */
static bool
is_milling(struct slice first, struct slice second)
{
    static const char *const ways[] = {"stone", "fine", "medium", "coarse", "finely", "coarsely"};
    return slice_is(second, "ground") && food_stem_among(first, ways, COUNT(ways));
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

/* "skin on", "bone-in", "in the shell": how it comes; marrow bones and pasta shells are named so */
static bool
is_covering(const struct food_word *words, size_t count, size_t i)
{
    static const char *const parts[] = {"skin", "bone", "shell", "rind"};
    static const char *const sides[] = {"on", "in"};
    size_t before = i;
    while (before > 0 &&
           (slice_is(words[before - 1].stem, "the") || slice_is(words[before - 1].stem, "their")))
        before--;
    return food_stem_among(words[i].stem, parts, COUNT(parts)) &&
           ((i + 1 < count && food_stem_among(words[i + 1].stem, sides, COUNT(sides))) ||
            (before > 0 && food_stem_among(words[before - 1].stem, sides, COUNT(sides))));
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
food_pairs_join(struct food_word *words, size_t count)
{
    soften_salt(words, count);
    for (size_t i = 0; i < count; i++) {
        struct food_word *w = &words[i], *next = i + 1 < count ? w + 1 : NULL;
        const size_t ready = ready_to(w, count - i);
        if (ready > 0) {
            i += ready - 1;
        } else if (is_covering(words, count, i)) {
            w->part = WORD_SOFT;
        } else if (next != NULL &&
                   (is_come_by(next->stem) || is_of_the_shop(w->stem, next->stem))) {
            w->part = next->part = WORD_NOISE;
            i++;
        } else if (next != NULL && is_manner(w->stem, next->stem)) {
            w->part = next->part = WORD_SOFT;
            i++;
        } else if (next != NULL && is_milling(w->stem, next->stem)) {
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
