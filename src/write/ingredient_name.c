#include "write/ingredient_name.h"

#include "tables/food_names.h"
#include "write/markup.h"

bool
ingredient_name_by_law(const struct region *r, enum allergen a)
{
    /* FD&C Act 201(qq): milk, egg, fish, crustacean shellfish, tree nuts, peanuts, wheat, soybeans,
     * sesame. Regulation (EU) 1169/2011 Annex II names each cereal that holds gluten. */
    static const bool us[ALLERGENS] = {
        [ALLERGEN_MILK] = true,  [ALLERGEN_EGGS] = true,     [ALLERGEN_FISH] = true,
        [ALLERGEN_NUTS] = true,  [ALLERGEN_PEANUTS] = true,  [ALLERGEN_CRUSTACEANS] = true,
        [ALLERGEN_WHEAT] = true, [ALLERGEN_SOYBEANS] = true, [ALLERGEN_SESAME] = true,
    };
    if (r->allergens != NULL && slice_is(slice_of(r->allergens), "us"))
        return us[a];
    return true;
}

static char
lower(char c)
{
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

/* offset of needle in s without regard to ASCII case, or SIZE_MAX */
static size_t
find_anycase(struct slice s, struct slice needle)
{
    const char first = needle.length > 0 ? lower(needle.at[0]) : '\0';
    for (size_t i = 0; needle.length > 0 && i + needle.length <= s.length; i++) {
        size_t k = 0;
        if (lower(s.at[i]) != first)
            continue;
        while (k < needle.length && lower(s.at[i + k]) == lower(needle.at[k]))
            k++;
        if (k == needle.length)
            return i;
    }
    return SIZE_MAX;
}

/* whether a word of four letters or more stands in both: "plain flour", "plain wheat flour" */
static bool
shares_word(struct slice words, struct slice name)
{
    for (size_t from = 0, to; from < name.length; from = to + 1) {
        to = slice_find_byte(name, ' ', from);
        if (to == SIZE_MAX)
            to = name.length;
        if (to - from >= 4 && find_anycase(words, slice_part(name, from, to)) != SIZE_MAX)
            return true;
    }
    return false;
}

/* the longest of a food's names in any region that stands in the words: "double cream" says no more
 * in the United States than another foreign word */
static struct slice
name_elsewhere(const struct food *food, struct slice words)
{
    struct slice longest = {NULL, 0};
    for (size_t r = 0; r <= REGIONS_MOST; r++) {
        const char *shown = r < REGIONS_MOST ? food->shown[r] : food->name;
        const struct slice name = shown == NULL ? longest : slice_of(shown);
        if (name.length > longest.length && find_anycase(words, name) != SIZE_MAX)
            longest = name;
    }
    return longest;
}

/* the food's words as region i would say them: "courgettes" becomes "zucchini" */
static struct slice
name_of_region(const struct fragment_context *s, const struct helping *h, struct slice words,
               size_t i)
{
    struct reads *reads = s->o->reads;
    if (h->food == NULL || s->regions[i] == s->o->dish.region)
        return words;
    struct slice here = slice_of(foods_shown(h->food, s->o->dish.region, reads));
    struct slice there = slice_of(foods_shown(h->food, s->regions[i], reads));
    if (slice_equal(here, there) || find_anycase(words, there) != SIZE_MAX)
        return words;
    size_t at = find_anycase(words, here);
    if (at == SIZE_MAX) {
        here = name_elsewhere(h->food, words);
        at = find_anycase(words, here);
    }
    if (at == SIZE_MAX && shares_word(words, there))
        return words;
    if (at == SIZE_MAX)
        return text_formatted(s->arena, "%.*s (%.*s)", SLICE_ARGS(words), SLICE_ARGS(there));
    return text_formatted(s->arena, "%.*s%.*s%.*s", (int)at, words.at, SLICE_ARGS(there),
                          SLICE_ARGS(slice_part(words, at + here.length, words.length)));
}

/* words before the first in which two names differ, spaces and all: "red " of "red pepper" */
static size_t
common_words(struct slice a, struct slice b)
{
    size_t common = 0;
    for (size_t i = 0; i < a.length && i < b.length && a.at[i] == b.at[i]; i++)
        if (a.at[i] == ' ')
            common = i + 1;
    return common;
}

/* whether these words alone would be read as the food */
static bool
means(const struct fragment_context *s, const struct food *food, struct slice words)
{
    const struct sought sought = {.name = words, .region = s->o->dish.region};
    const struct found found = food_find(s->tables->larder, s->arena, &sought, s->o->reads);
    return found.food == food || found.rival == food;
}

bool
ingredient_name_around(const struct fragment_context *s, size_t ingredient, struct slice text,
                       size_t *from, size_t *to)
{
    const struct ingredient *in = &s->o->dish.ingredients[ingredient];
    if (in->option_count == 0 || in->options[0].count == 0)
        return false;
    const struct slice name = slice_trim(in->options[0].helpings[0].written->name);
    const size_t begin = *to > name.length ? *to - name.length : 0;
    if (name.length <= *to - *from)
        return false;
    const size_t at = find_anycase(slice_part(text, begin, *from + name.length), name);
    if (at == SIZE_MAX || begin + at > *from || begin + at + name.length < *to)
        return false;
    *from = begin + at;
    *to = *from + name.length;
    return true;
}

size_t
ingredient_name_before(const struct fragment_context *s, size_t ingredient, struct slice text,
                       size_t length)
{
    const struct ingredient *in = &s->o->dish.ingredients[ingredient];
    if (in->option_count == 0 || in->options[0].count == 0 ||
        in->options[0].helpings[0].food == NULL)
        return 0;
    const struct food *food = in->options[0].helpings[0].food;
    const struct slice name = slice_of(foods_shown(food, s->o->dish.region, s->o->reads));
    /* one more byte: the plural's */
    for (size_t plural = 0; plural <= 1; plural++) {
        const size_t all = name.length + plural;
        const struct slice end =
            slice_part(text, text.length - (all < text.length ? all : 0), text.length - plural);
        if (all > length && all < text.length && find_anycase(end, name) == 0)
            return all - length;
    }
    return 0;
}

struct slice
ingredient_name_in_step(const struct fragment_context *s, size_t ingredient, struct slice words,
                        size_t i)
{
    const struct ingredient *in = &s->o->dish.ingredients[ingredient];
    if (in->option_count != 1 || in->options[0].count != 1 || s->regions[i] == s->o->dish.region)
        return words;
    const struct food *food = in->options[0].helpings[0].food;
    if (food == NULL)
        return words;
    struct slice here = slice_of(foods_shown(food, s->o->dish.region, s->o->reads));
    struct slice there = slice_of(foods_shown(food, s->regions[i], s->o->reads));
    if (slice_equal(here, there))
        return words;
    size_t at = find_anycase(words, here);
    if (at == SIZE_MAX) {
        const size_t common = common_words(here, there);
        here = slice_part(here, common, here.length);
        there = slice_part(there, common, there.length);
        at = find_anycase(words, here);
        const struct slice whole = slice_of(foods_shown(food, s->regions[i], s->o->reads));
        const struct slice listed = slice_trim(in->options[0].helpings[0].written->name);
        const bool same = words.length == listed.length && find_anycase(words, listed) == 0;
        if (!(same || means(s, food, words)) || (at == SIZE_MAX && shares_word(words, whole)))
            return words;
        if (at == SIZE_MAX) { /* another of its names: "prawns" for raw prawns, which are shrimp */
            at = 0;
            here = words;
            there = whole;
        }
    }
    struct slice word =
        text_formatted(s->arena, "%.*s%.*s%.*s", (int)at, words.at, SLICE_ARGS(there),
                       SLICE_ARGS(slice_part(words, at + here.length, words.length)));
    if (lower(words.at[0]) != words.at[0] && lower(word.at[0]) == word.at[0])
        word = text_formatted(s->arena, "%c%.*s", word.at[0] - 'a' + 'A',
                              SLICE_ARGS(slice_part(word, 1, word.length)));
    return word;
}

/* whether the food is to be named as one that has it: gluten by its cereal, where that is known */
static bool
is_named(const struct food *f, enum allergen a, const struct region *region)
{
    bool cereal = false;
    for (enum allergen c = 0; a == ALLERGEN_GLUTEN && c < ALLERGENS; c++)
        cereal = cereal || (groups_allergen_is_cereal(c) && (f->allergens & 1u << c) != 0);
    return (f->allergens & 1u << a) != 0 && !cereal && ingredient_name_by_law(region, a);
}

struct slice
ingredient_name_write(const struct fragment_context *s, const struct helping *h, struct slice words,
                      size_t i)
{
    struct text t = text_new(s->arena), untold = text_new(s->arena);
    struct slice name = name_of_region(s, h, words, i);
    bool any = false;
    for (int a = 0; h->food != NULL && a < ALLERGENS; a++) {
        if (!is_named(h->food, (enum allergen)a, fragment_region(s, i)))
            continue;
        struct slice word = slice_of(groups_allergen_word((enum allergen)a));
        struct slice stem = slice_ends(word, "s") ? slice_part(word, 0, word.length - 1) : word;
        any = true;
        if (find_anycase(name, stem) != SIZE_MAX)
            continue;
        text_add_string(&untold, untold.length > 0 ? ", " : "");
        text_add_html(&untold, word);
    }
    text_add_string(&t, any ? "<strong class=\"dl-allergen\">" : "");
    markup_words(&t, name);
    if (untold.length > 0) {
        text_add_string(&t, " (");
        text_add(&t, text_slice(&untold));
        text_add_byte(&t, ')');
    }
    text_add_string(&t, any ? "</strong>" : "");
    return text_slice(&t);
}
