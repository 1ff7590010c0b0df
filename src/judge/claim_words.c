#include "judge/claim_words.h"

#include "judge/promise.h"
#include "read/nearest.h"
#include "read/time_span.h"

#define BIT(a) (1u << (a))
#define MEMBER(name) "https://schema.org/" name

/* what each claim means that the list of claims may name, but for diets, and "low-" with a group */
static const struct row {
    const char *claim;
    struct claim_meaning meaning;
} rows[] = {
    {"meat-free", {CLAIM_DIET, "vegetarian", NULL, .diet = DIET_VEGETARIAN}},
    {"tree-nut-free",
     {CLAIM_ABSENT, "nut-free", NULL, "tree nuts", .allergens = BIT(ALLERGEN_NUTS)}},
    {"peanut-free",
     {CLAIM_ABSENT, "peanut-free", NULL, "peanuts", .allergens = BIT(ALLERGEN_PEANUTS)}},
    {"nut-free",
     {CLAIM_ABSENT, "nut-free", NULL, "nuts or peanuts",
      .allergens = BIT(ALLERGEN_NUTS) | BIT(ALLERGEN_PEANUTS)}},
    {"egg-free", {CLAIM_ABSENT, "egg-free", NULL, "egg", .allergens = BIT(ALLERGEN_EGGS)}},
    {"soy-free", {CLAIM_ABSENT, "soy-free", NULL, "soy", .allergens = BIT(ALLERGEN_SOYBEANS)}},
    {"wheat-free", {CLAIM_ABSENT, "wheat-free", NULL, "wheat", .allergens = BIT(ALLERGEN_WHEAT)}},
    {"sesame-free",
     {CLAIM_ABSENT, "sesame-free", NULL, "sesame", .allergens = BIT(ALLERGEN_SESAME)}},
    {"mustard-free",
     {CLAIM_ABSENT, "mustard-free", NULL, "mustard", .allergens = BIT(ALLERGEN_MUSTARD)}},
    {"celery-free",
     {CLAIM_ABSENT, "celery-free", NULL, "celery", .allergens = BIT(ALLERGEN_CELERY)}},
    {"lupin-free", {CLAIM_ABSENT, "lupin-free", NULL, "lupin", .allergens = BIT(ALLERGEN_LUPIN)}},
    {"sulphite-free",
     {CLAIM_ABSENT, "sulphite-free", NULL, "sulphites", .allergens = BIT(ALLERGEN_SULPHITES)}},
    {"fish-free", {CLAIM_ABSENT, "fish-free", NULL, "fish", .allergens = BIT(ALLERGEN_FISH)}},
    {"shellfish-free",
     {CLAIM_ABSENT, "shellfish-free", NULL, "shellfish",
      .allergens = BIT(ALLERGEN_CRUSTACEANS) | BIT(ALLERGEN_MOLLUSCS)}},
    {"lactose-free", {CLAIM_NONE_OF, "lactose-free", MEMBER("LowLactoseDiet"), .group = LACTOSE}},
    {"low-lactose", {CLAIM_LOW, "low-lactose", MEMBER("LowLactoseDiet"), .group = LACTOSE}},
    {"low-fructose", {CLAIM_LOW, "low-fructose", NULL, .group = EXCESS_FRUCTOSE}},
    {"sugar-free", {.kind = CLAIM_SUGAR, .id = "sugar-free"}},
    {"one-pot", {.kind = CLAIM_ONE_POT, .id = "one-pot"}},
};

static bool
count_read(const struct words *w, struct claim_meaning *out)
{
    for (size_t i = 0; i < w->count; i++) {
        struct span count;
        size_t n = time_span_count(w, i, &count);
        size_t at = i + n;
        if (n == 0)
            continue;
        if (at < w->count && word_is(&w->items[at], "-"))
            at++;
        if (at < w->count &&
            (word_is(&w->items[at], "ingredient") || word_is(&w->items[at], "ingredients"))) {
            *out = (struct claim_meaning){.kind = CLAIM_COUNT, .id = "ingredient-count"};
            out->count = count.high;
            return true;
        }
    }
    return false;
}

static bool
time_read(const struct cooking *c, const struct words *w, struct claim_meaning *out)
{
    if (words_any(w, words_list(w, WORDS_CLAIMS_OF_OTHER_TIMES), 0, w->count, NULL) != NULL)
        return false;
    size_t from, to;
    double seconds = promise_read(c, w, PROMISE_TITLE, &from, &to);
    struct time_span s;
    for (size_t i = 0; i < w->count && !(seconds > 0); i++)
        if (time_span_at(w, i, &s) > 0)
            seconds = s.seconds.high;
    if (!(seconds > 0) || seconds > 86400)
        return false;
    *out = (struct claim_meaning){.kind = CLAIM_TIME, .id = "under-time", .seconds = seconds};
    return true;
}

static struct claim_meaning
meaning_of(const char *claim)
{
    struct claim_meaning m = {.kind = CLAIM_UNREAD, .id = claim};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        if (strcmp(rows[i].claim, claim) == 0)
            return rows[i].meaning;
    for (int d = 0; d < DIETS; d++)
        if (strcmp(groups_diet_word((enum diet)d), claim) == 0)
            return (struct claim_meaning){CLAIM_DIET, claim, groups_diet((enum diet)d)->url,
                                          .diet = (enum diet)d};
    if (strncmp(claim, "low-", 4) == 0 && groups_read(slice_of(claim + 4), &m.group))
        m.kind = CLAIM_LOW;
    return m;
}

const char *
claim_words_row(const struct word_lists *lists, size_t k, struct claim_meaning *out)
{
    const struct word_list *claims = word_lists_get(lists, WORDS_CLAIMS);
    if (k >= claims->count)
        return NULL;
    *out = meaning_of(claims->values[k].text);
    return claims->words[k];
}

void
claim_words_read(struct arena *a, const struct word_lists *lists, const struct cooking *c,
                 struct slice text, struct claim_meaning *out)
{
    struct words w;
    words_read(a, lists, text, &w);
    const char *phrase;
    for (size_t k = 0; (phrase = claim_words_row(lists, k, out)) != NULL; k++)
        if (out->kind != CLAIM_UNREAD && words_find(&w, phrase, 0, w.count) != SIZE_MAX)
            return;
    *out = (struct claim_meaning){.kind = CLAIM_UNREAD};
    if (count_read(&w, out) || time_read(c, &w, out))
        return;
    if (words_any(&w, words_list(&w, WORDS_CLAIMS_OF_MANNER), 0, w.count, NULL) != NULL)
        out->kind = CLAIM_MANNER;
}

/* letters alone, in lower case: "gluten free", "GlutenFree" and "gluten-free" are one */
static struct slice
letters_of(struct arena *a, struct slice text)
{
    struct text out = text_new(a);
    for (size_t i = 0; i < text.length; i++) {
        char c = text.at[i];
        if (c >= 'A' && c <= 'Z')
            c = (char)(c - 'A' + 'a');
        if ((c >= 'a' && c <= 'z') || (unsigned char)c >= 0x80)
            text_add_byte(&out, c);
    }
    return text_slice(&out);
}

/* more than a third of the letters are no slip */
static size_t
slips_most(struct slice letters)
{
    return letters.length / 3;
}

const char *
claim_words_nearest(struct arena *a, const struct word_lists *lists, struct slice text)
{
    static const char *const measures[] = {"minutes", "hours", "ingredients", NULL};
    struct slice letters = letters_of(a, text);
    size_t most = slips_most(letters);
    const char *near = NULL;
    struct claim_meaning m;
    const char *phrase;
    for (size_t k = 0; letters.length > 2 && (phrase = claim_words_row(lists, k, &m)) != NULL;
         k++) {
        size_t n = nearest_distance(letters, letters_of(a, slice_of(phrase)), most);
        if (n > most || (near != NULL && n == most))
            continue;
        near = m.id;
        most = n;
    }
    struct words w;
    words_read(a, lists, text, &w);
    for (size_t i = 0; near == NULL && i < w.count; i++) {
        const char *measure = nearest_word(w.items[i].folded, measures);
        if (measure != NULL && 3 * nearest_distance(w.items[i].folded, slice_of(measure), 9) <=
                                   w.items[i].folded.length)
            near = measure;
    }
    return near;
}
